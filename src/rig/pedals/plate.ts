import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { plateDesign } from "../../sound/dsp/plateDesign.js";
import { plateDiffusers, plateRateHz } from "../../sound/dsp/plateTable.js";
import { PlateTank, plateTankBytes } from "../../sound/dsp/plateTank.js";
import { ReverbInput, reverbInputBytes } from "../../sound/dsp/reverbInput.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { openRoom } from "../../sound/loops/room.js";
import { silent } from "../../sound/loops/silent.js";
import { besideDry, type PedalModel, type PedalUse } from "./pedalModel.js";

export const plateSettings = {
  decaySeconds: {
    isMain: true,
    default: 2.2,
    min: 0.2,
    max: 20,
    log: true,
    says: "time in which the sound falls by 60 dB",
  },
  preDelayMs: { default: 0, min: 0, max: 250, says: "silence ahead of the plate" },
  bandwidthHz: { default: 6000, min: 500, max: 20_000, log: true, says: "corner of the low-pass ahead" },
  dampingHz: { default: 14_000, min: 500, max: 20_000, log: true, says: "corner of the loss in each half" },
  diffusion: { default: 1, min: 0, max: 1, says: "smear of the input; 1 is the published amount" },
  lfoHz: { default: 1, min: 0.05, max: 5, log: true, says: "speed of the swing that spreads the modes" },
  excursionMs: { default: 0.27, min: 0, max: 0.53, says: "swing of one delay in each half, either way" },
  mix: { isMain: true, default: 0.35, min: 0, max: 1, says: "share of the effect; the rest is dry" },
} as const satisfies SettingTable;

/**
 * A plate: pre-delay, low-pass, four diffusers, then a tank of two halves that feed each other, heard at seven places a
 * side. Source: J. Dattorro, "Effect Design, Part 1", J. Audio Eng. Soc. 45(9), Sept 1997; see plateTable.ts for the
 * numbers and plateDesign.ts for how the decay is set.
 *
 * One input feeds both halves, as in the paper, where stereo is summed to mono ahead. Two inputs keep their sides: each
 * has diffusers of its own and feeds the half that its own side's output hears most, the left one the right half; equal
 * inputs give what one input gives. One output: the left one's
 * taps, so that nothing cancels. Wet level: a response of about unit energy in the middle of the spectrum.
 */
export const plate: PedalModel<typeof plateSettings> = {
  kind: "Reverb",
  plural: "reverbs",
  settings: plateSettings,
  ...besideDry,
  kernel: (settings, use) => new Plate(settings, use),
  /** The longest way without a tap: the longest delay of the tank. */
  silenceMs: ({ preDelayMs }) => preDelayMs + 150,
  changesInTime: true,
  nonlinear: false,
  isFilter: ({ excursionMs }) => excursionMs === 0,
  standard: "it is a network of feedback loops, which this check does not build of standard nodes",
  costNs: 75,
};

class Plate implements Kernel {
  readonly #inputs: readonly ReverbInput[];
  readonly #tank: PlateTank;

  constructor(settings: Settings<typeof plateSettings>, { inputs, outputs, rateHz }: PedalUse) {
    const design = plateDesign({ ...settings, rateHz });
    const diffusers = plateDiffusers.map(({ delay, coefficient }) => ({
      delayFrames: (delay * rateHz) / plateRateHz,
      coefficient: coefficient * settings.diffusion,
    }));
    const swing = { ...settings, excursionFrames: msToFrames(settings.excursionMs, rateHz), rateHz, outputs };
    const room = openRoom(inputs * reverbInputBytes(diffusers) + plateTankBytes(design, swing));
    this.#tank = new PlateTank(design, swing, room);
    // What comes in on the left feeds the right half.
    const [left, right] = this.#tank.signals;
    this.#inputs = [right, left]
      .slice(0, inputs)
      .map((signal) => new ReverbInput({ ...settings, rateHz, diffusers }, signal, room));
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let done = 0, run = 0; done < frames; done += run) {
      run = this.#tank.ready(frames - done);
      this.#run(inputs, outputs, done, run);
    }
  }

  #run(inputs: Block, outputs: Block, from: number, frames: number): void {
    const [left, right] = this.#tank.signals;
    for (let i = 0; i < this.#inputs.length; i++) this.#inputs[i].process(inputs[i], from, frames);
    if (this.#inputs.length === 1) left.set(right);
    this.#tank.process(frames);
    for (let o = 0; o < outputs.length; o++) {
      const sum = this.#tank.sums[o];
      const output = outputs[o];
      for (let n = 0; n < frames; n++) output[from + n] = Math.abs(sum[n]) < silent ? 0 : sum[n];
    }
  }
}
