import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { Lfo, lfoRunFrames } from "../../sound/dsp/lfo.js";
import { type PlacedTap, plateDesign } from "../../sound/dsp/plateDesign.js";
import { PlateHalf } from "../../sound/dsp/plateHalf.js";
import { plateDiffusers, plateRateHz } from "../../sound/dsp/plateTable.js";
import { ReverbInput } from "../../sound/dsp/reverbInput.js";
import { silent } from "../../sound/dsp/silent.js";
import { msToFrames } from "../../sound/dsp/units.js";
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
  standard: "it is a network of feedback loops, which this check does not build of standard nodes",
  costNs: 75,
};

class Plate implements Kernel {
  readonly #inputs: readonly ReverbInput[];
  readonly #halves: readonly [PlateHalf, PlateHalf];
  readonly #lfos: readonly [Lfo, Lfo];
  readonly #taps: readonly (readonly PlacedTap[])[];
  readonly #signals = [new Float64Array(lfoRunFrames), new Float64Array(lfoRunFrames)] as const;
  readonly #sum = new Float64Array(lfoRunFrames);

  constructor(settings: Settings<typeof plateSettings>, { inputs, rateHz }: PedalUse) {
    const design = plateDesign({ ...settings, rateHz });
    const diffusers = plateDiffusers.map(({ delay, coefficient }) => ({
      delayFrames: (delay * rateHz) / plateRateHz,
      coefficient: coefficient * settings.diffusion,
    }));
    const excursionFrames = msToFrames(settings.excursionMs, rateHz);
    this.#inputs = Array.from({ length: inputs }, () => new ReverbInput({ ...settings, rateHz, diffusers }));
    this.#lfos = [new Lfo(settings.lfoHz, rateHz, 0), new Lfo(settings.lfoHz, rateHz, 90)];
    this.#halves = [
      new PlateHalf(design.halves[0], excursionFrames, this.#lfos[0], lfoRunFrames),
      new PlateHalf(design.halves[1], excursionFrames, this.#lfos[1], lfoRunFrames),
    ];
    this.#taps = design.taps;
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    const [leftLfo, rightLfo] = this.#lfos;
    for (let done = 0, run = 0; done < frames; done += run) {
      run = Math.min(leftLfo.ready(frames - done), rightLfo.ready(frames - done));
      this.#run(inputs, outputs, done, run);
      leftLfo.at += run;
      rightLfo.at += run;
    }
  }

  #run(inputs: Block, outputs: Block, from: number, frames: number): void {
    const [left, right] = this.#signals;
    const [leftHalf, rightHalf] = this.#halves;
    this.#inputs[0].process(inputs[0], from, right, frames);
    if (this.#inputs.length === 2) this.#inputs[1].process(inputs[1], from, left, frames);
    else left.set(right);
    rightHalf.addEnd(left, frames);
    leftHalf.addEnd(right, frames);
    leftHalf.process(left, frames);
    rightHalf.process(right, frames);
    for (let o = 0; o < outputs.length; o++) this.#hear(this.#taps[o], outputs[o], from, frames);
  }

  #hear(taps: readonly PlacedTap[], output: Float32Array, from: number, frames: number): void {
    const sum = this.#sum;
    sum.fill(0);
    for (const tap of taps) this.#halves[tap.half].addTap(tap, sum, frames);
    for (let n = 0; n < frames; n++) output[from + n] = Math.abs(sum[n]) < silent ? 0 : sum[n];
  }
}
