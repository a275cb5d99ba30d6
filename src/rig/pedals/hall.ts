import {
  hallDesign,
  hallLevel,
  hallWeights,
  longestFlightSeconds,
  meanFlightSeconds,
} from "../../sound/dsp/hallDesign.js";
import { HallNetwork, hallNetworkBytes } from "../../sound/dsp/hallNetwork.js";
import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { ReverbInput, reverbInputBytes } from "../../sound/dsp/reverbInput.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { openRoom } from "../../sound/loops/room.js";
import { silent } from "../../sound/loops/silent.js";
import { besideDry, type PedalModel, type PedalUse } from "./pedalModel.js";

export const hallSettings = {
  decaySeconds: {
    isMain: true,
    default: 2.8,
    min: 0.2,
    max: 30,
    log: true,
    says: "time in which the sound falls by 60 dB",
  },
  sizeMetres: { default: 24, min: 8, max: 60, log: true, says: "side of the room" },
  preDelayMs: { default: 15, min: 0, max: 250, says: "silence ahead of the hall" },
  bandwidthHz: { default: 3000, min: 500, max: 20_000, log: true, says: "corner of the low-pass ahead" },
  dampingHz: {
    default: 9000,
    min: 2000,
    max: 20_000,
    log: true,
    says: "where the decay takes half the time",
  },
  diffusion: { default: 1, min: 0, max: 1, says: "smear of the input" },
  lfoHz: { default: 0.5, min: 0.05, max: 5, log: true, says: "speed of the swing that spreads the modes" },
  excursionMs: { default: 0.25, min: 0, max: 1, says: "swing of one line, either way" },
  mix: { isMain: true, default: 0.35, min: 0, max: 1, says: "share of the effect; the rest is dry" },
} as const satisfies SettingTable;

/**
 * A hall: pre-delay, low-pass, four diffusers, then a feedback delay network of twelve lines; see hallNetwork.ts and
 * hallDesign.ts for sources.
 *
 * One input feeds all lines; of two inputs each feeds half of them, and is louder on its own side; equal inputs give
 * what one input gives. One output: the left one's sum, so that nothing cancels. Wet level: a response of about unit
 * energy in the middle of the spectrum.
 */
export const hall: PedalModel<typeof hallSettings> = {
  kind: "Reverb",
  plural: "reverbs",
  settings: hallSettings,
  ...besideDry,
  kernel: (settings, use) => new Hall(settings, use),
  /** Nothing is heard before the shortest line, nor between echoes for longer than the longest. */
  silenceMs: ({ preDelayMs, sizeMetres }) => preDelayMs + 2000 * longestFlightSeconds(sizeMetres),
  changesInTime: true,
  nonlinear: false,
  isFilter: ({ excursionMs }) => excursionMs === 0,
  standard: "it is a network of feedback loops, which this check does not build of standard nodes",
  costNs: 75,
};

/** Diffusers' lengths against the mean flight between walls, and their coefficient: by eye, no source. */
const diffuserShares = [0.307, 0.229, 0.131, 0.073];
const diffuserCoefficient = 0.7;

class Hall implements Kernel {
  readonly #inputs: readonly ReverbInput[];
  readonly #network: HallNetwork;
  /** What each output hears of the network's sums. */
  readonly #weights: readonly (readonly number[])[];

  constructor(settings: Settings<typeof hallSettings>, { inputs, rateHz }: PedalUse) {
    const lines = hallDesign({ ...settings, rateHz });
    const flightFrames = meanFlightSeconds(settings.sizeMetres) * rateHz;
    const diffusers = diffuserShares.map((share) => ({
      delayFrames: share * flightFrames,
      coefficient: diffuserCoefficient * settings.diffusion,
    }));
    const swing = { ...settings, excursionFrames: msToFrames(settings.excursionMs, rateHz), rateHz };
    const room = openRoom(
      inputs * reverbInputBytes(diffusers) + hallNetworkBytes(lines, swing.excursionFrames),
    );
    this.#network = new HallNetwork(lines, swing, room);
    this.#inputs = this.#network.fed
      .slice(0, inputs)
      .map((signal) => new ReverbInput({ ...settings, rateHz, diffusers }, signal, room));
    const level = hallLevel(lines);
    this.#weights = hallWeights.map((row) => row.map((weight) => level * weight));
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let done = 0, run = 0; done < frames; done += run) {
      run = this.#network.ready(frames - done);
      this.#run(inputs, outputs, done, run);
    }
  }

  #run(inputs: Block, outputs: Block, from: number, frames: number): void {
    const [left, right] = this.#network.fed;
    for (let i = 0; i < this.#inputs.length; i++) this.#inputs[i].process(inputs[i], from, frames);
    if (this.#inputs.length === 1) right.set(left);
    this.#network.process(frames);
    for (let o = 0; o < outputs.length; o++) this.#hear(this.#weights[o], outputs[o], from, frames);
  }

  #hear(weights: readonly number[], output: Float32Array, from: number, frames: number): void {
    const [sums0, sums1, sums2, sums3] = this.#network.sums;
    const [weight0, weight1, weight2, weight3] = weights;
    for (let n = 0; n < frames; n++) {
      const y = weight0 * sums0[n] + weight1 * sums1[n] + (weight2 * sums2[n] + weight3 * sums3[n]);
      output[from + n] = Math.abs(y) < silent ? 0 : y;
    }
  }
}
