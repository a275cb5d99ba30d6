import { Biquad } from "../../sound/dsp/biquad.js";
import { lowPass } from "../../sound/dsp/biquadDesign.js";
import { kernelPerChannel, type MonoKernel } from "../../sound/dsp/channels.js";
import type { Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { LoopFilter } from "../../sound/dsp/loopFilter.js";
import { OversampledBend, oversamplingDelayFrames } from "../../sound/dsp/oversampling.js";
import { dbToGain } from "../../sound/dsp/units.js";
import { type PedalModel, wholeSound } from "./pedalModel.js";

export const overdriveSettings = {
  driveDb: { isMain: true, default: 20, min: 0, max: 50, says: "gain into the curve" },
  asymmetry: {
    default: 0.2,
    min: 0,
    max: 1,
    says: "how far off its centre the curve is used: even harmonics",
  },
  toneHz: { isMain: true, default: 4000, min: 500, max: 12000, log: true, says: "low-pass after the curve" },
  levelDb: { isMain: true, default: -10, min: -40, max: 10, says: "level after" },
} as const satisfies SettingTable;

/** Keeps the offset of a lopsided curve out. Common practice, no source. */
const highPassHz = 10;

/**
 * Overdrive: a soft clip, y = tanh(drive x + asymmetry) - tanh(asymmetry), drive = 10^(driveDb/20), at eight times the
 * rate; then a high-pass at 10 Hz, a low-pass at toneHz (12 dB an octave) and the level. The curve has its published
 * limits, -1 and 1, and with small sounds a gain of drive (1 - tanh(asymmetry)^2).
 * Source: tanh as soft clip: common practice, no source; the oversampling filters are those of `halfBand.ts`.
 */
export const overdrive: PedalModel<typeof overdriveSettings> = {
  kind: "Overdrive",
  plural: "overdrives",
  settings: overdriveSettings,
  ...wholeSound,
  kernel: (settings, use) => kernelPerChannel(use, () => new Overdrive(settings, use.rateHz), true),
  silenceMs: () => 0,
  latencyFrames: () => Math.round(oversamplingDelayFrames),
  changesInTime: false,
  nonlinear: true,
  isFilter: () => false,
  standard: "the standard leaves open how an oversampled WaveShaperNode filters",
  costNs: 250,
};

class Overdrive implements MonoKernel {
  readonly #bend: OversampledBend;
  readonly #blocker: LoopFilter;
  readonly #toneFilter: Biquad;
  readonly #level: number;

  constructor({ driveDb, asymmetry, toneHz, levelDb }: Settings<typeof overdriveSettings>, rateHz: number) {
    this.#bend = new OversampledBend(dbToGain(driveDb), asymmetry);
    this.#level = dbToGain(levelDb);
    this.#blocker = new LoopFilter(Number.POSITIVE_INFINITY, highPassHz, rateHz);
    this.#toneFilter = new Biquad(lowPass({ cutoffHz: toneHz, rateHz }));
  }

  process(input: Float32Array, output: Float32Array, frames: number): void {
    const blocker = this.#blocker;
    const level = this.#level;
    this.#bend.process(input, output, frames);
    for (let n = 0; n < frames; n++) output[n] = level * blocker.next(output[n]);
    this.#toneFilter.process(output, output, frames);
  }
}
