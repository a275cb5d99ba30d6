import {
  hallDesign,
  hallLevel,
  hallLines,
  longestFlightSeconds,
  meanFlightSeconds,
} from "../dsp/hallDesign.js";
import { HallNetwork, hallWeights } from "../dsp/hallNetwork.js";
import type { Block, Kernel, Settings, SettingTable } from "../dsp/kernel.js";
import { Lfo, lfoRunFrames } from "../dsp/lfo.js";
import { ReverbInput } from "../dsp/reverbInput.js";
import { silent } from "../dsp/silent.js";
import { msToFrames } from "../dsp/units.js";
import { mixBlend, type PedalModel, type PedalUse } from "./pedalModel.js";

export const hallSettings = {
  decaySeconds: {
    default: 2.8,
    min: 0.2,
    max: 30,
    log: true,
    says: "time in which the sound falls by 60 dB",
  },
  sizeMetres: { default: 24, min: 8, max: 60, log: true, says: "side of the room" },
  preDelayMs: { default: 15, min: 0, max: 250, says: "silence ahead of the hall" },
  bandwidthHz: { default: 3500, min: 500, max: 20_000, log: true, says: "corner of the low-pass ahead" },
  dampingHz: {
    default: 9000,
    min: 2000,
    max: 20_000,
    log: true,
    says: "where the decay takes half the time",
  },
  diffusion: { default: 1, min: 0, max: 1, says: "smear of the input" },
  lfoHz: { default: 0.5, min: 0.05, max: 5, log: true, says: "speed of the swing that spreads the modes" },
  excursionMs: { default: 0.25, min: 0, max: 1, says: "swing of some of the lines, either way" },
  mix: { default: 0.35, min: 0, max: 1 },
} as const satisfies SettingTable;

/**
 * A hall: pre-delay, low-pass, four diffusers, then a feedback delay network of sixteen lines; see hallNetwork.ts and
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
  blendSettings: ["mix"],
  kernel: (settings, use) => new Hall(settings, use),
  blend: ({ mix }, outputs) => mixBlend(mix, outputs),
  silenceMs: ({ preDelayMs, sizeMetres }) => preDelayMs + 2000 * longestFlightSeconds(sizeMetres),
  changesInTime: true,
  nonlinear: false,
};

/** Diffusers' lengths against the mean flight between walls, and their coefficient. Tuned by ear and eye; no source. */
const diffuserShares = [0.307, 0.229, 0.131, 0.073];
const diffuserCoefficient = 0.7;

class Hall implements Kernel {
  readonly #inputs: readonly ReverbInput[];
  readonly #network: HallNetwork;
  readonly #lfos: readonly Lfo[];
  readonly #gain: number;
  readonly #fed = [new Float64Array(lfoRunFrames), new Float64Array(lfoRunFrames)] as const;
  readonly #heard = [new Float64Array(lfoRunFrames), new Float64Array(lfoRunFrames)] as const;

  constructor(settings: Settings<typeof hallSettings>, { inputs, rateHz }: PedalUse) {
    const lines = hallDesign({ ...settings, rateHz });
    const flightFrames = meanFlightSeconds(settings.sizeMetres) * rateHz;
    const diffusers = diffuserShares.map((share) => ({
      delayFrames: share * flightFrames,
      coefficient: diffuserCoefficient * settings.diffusion,
    }));
    this.#inputs = Array.from({ length: inputs }, () => new ReverbInput({ ...settings, rateHz, diffusers }));
    this.#network = new HallNetwork(lines, msToFrames(settings.excursionMs, rateHz), lfoRunFrames);
    this.#lfos = [0, 90].map((phase) => new Lfo(settings.lfoHz, rateHz, phase));
    const weights = Array.from({ length: hallLines }, (_, i) => hallWeights[0][i % 4]);
    this.#gain = hallLevel(lines, weights);
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    const lfos = this.#lfos;
    for (let done = 0, run = 0; done < frames; done += run) {
      run = Math.min(frames - done, this.#network.mostFrames);
      for (let k = 0; k < lfos.length; k++) run = Math.min(run, lfos[k].ready(run));
      this.#run(inputs, outputs, done, run);
      for (let k = 0; k < lfos.length; k++) lfos[k].at += run;
    }
  }

  #run(inputs: Block, outputs: Block, from: number, frames: number): void {
    const [left, right] = this.#fed;
    this.#inputs[0].process(inputs[0], from, left, frames);
    if (this.#inputs.length === 2) this.#inputs[1].process(inputs[1], from, right, frames);
    else right.set(left);
    for (const heard of this.#heard) heard.fill(0);
    this.#network.process(this.#fed, this.#heard, this.#lfos, frames);
    const gain = this.#gain;
    for (let o = 0; o < outputs.length; o++) {
      const heard = this.#heard[o];
      const output = outputs[o];
      for (let n = 0; n < frames; n++) {
        output[from + n] = Math.abs(heard[n]) < silent ? 0 : gain * heard[n];
      }
    }
  }
}
