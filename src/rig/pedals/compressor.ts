import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { type PedalModel, wholeSound } from "./pedalModel.js";

export const compressorSettings = {
  thresholdDb: { isMain: true, default: -24, min: -60, max: 0, says: "level from which gain is taken off" },
  ratio: {
    isMain: true,
    default: 4,
    min: 1,
    max: 20,
    log: true,
    says: "dB in for one dB out above the threshold",
  },
  kneeDb: { default: 6, min: 0, max: 24, says: "width of the bend about the threshold" },
  attackMs: { default: 10, min: 0.1, max: 200, log: true, says: "time constant as gain is taken off" },
  releaseMs: { default: 150, min: 5, max: 2000, log: true, says: "time constant as gain comes back" },
  makeUpDb: { isMain: true, default: 0, min: 0, max: 30, says: "gain after" },
} as const satisfies SettingTable;

/**
 * Compressor, feed-forward, in the log domain. With x the level in dB of the louder channel, T thresholdDb, R ratio and
 * W kneeDb, the static curve takes off
 *
 *     0                                          2(x - T) < -W
 *     (1 - 1/R)(x - T + W/2)^2 / (2W)            2|x - T| <= W
 *     (1 - 1/R)(x - T)                           2(x - T) > W
 *
 * dB, smoothed by one pole: exp(-1/(attack rate)) while it grows, exp(-1/(release rate)) while it shrinks. Both channels
 * get one gain, so the picture does not lean. Levels are re full scale 1.
 * Source: D. Giannoulis, M. Massberg and J. D. Reiss, "Digital Dynamic Range Compressor Design: A Tutorial and Analysis",
 * J. Audio Eng. Soc. 60(6), 2012, pp. 399-408, eqs. 4 (knee), 7 (time constants), 16 (smooth branching detector), 23
 * (the gain computer ahead of the detector); equation numbers from memory.
 */
export const compressor: PedalModel<typeof compressorSettings> = {
  kind: "Compressor",
  plural: "compressors",
  settings: compressorSettings,
  ...wholeSound,
  kernel: (settings, use) => new Compressor(settings, use.rateHz),
  silenceMs: () => 0,
  changesInTime: false,
  nonlinear: true,
  isFilter: () => false,
  standard: "the standard's DynamicsCompressorNode follows another law",
  costNs: 20,
};

/** Decibels in a neper of amplitude: 20/ln 10. */
const dbPerNeper = 20 / Math.LN10;

/** Works in neper, which saves a multiplication; `bend` is the level above the bottom of the knee. */
class Compressor implements Kernel {
  readonly #threshold: number;
  readonly #halfKnee: number;
  readonly #slope: number;
  readonly #attack: number;
  readonly #release: number;
  readonly #makeUp: number;
  #taken = 0;

  constructor(settings: Settings<typeof compressorSettings>, rateHz: number) {
    this.#threshold = settings.thresholdDb / dbPerNeper;
    this.#halfKnee = settings.kneeDb / 2 / dbPerNeper;
    this.#slope = 1 - 1 / settings.ratio;
    this.#attack = Math.exp(-1000 / (settings.attackMs * rateHz));
    this.#release = Math.exp(-1000 / (settings.releaseMs * rateHz));
    this.#makeUp = settings.makeUpDb / dbPerNeper;
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    const left = inputs[0];
    const right = inputs[inputs.length - 1];
    const leftOut = outputs[0];
    const rightOut = outputs[outputs.length - 1];
    const halfKnee = this.#halfKnee;
    const slope = this.#slope;
    const makeUp = this.#makeUp;
    const kneeBottom = this.#threshold - halfKnee;
    const kneeStart = Math.exp(kneeBottom);
    let taken = this.#taken;
    for (let n = 0; n < frames; n++) {
      const level = Math.max(Math.abs(left[n]), Math.abs(right[n]));
      let wanted = 0;
      if (level > kneeStart) {
        const bend = Math.log(level) - kneeBottom;
        wanted = slope * (bend < 2 * halfKnee ? (bend * bend) / (4 * halfKnee) : bend - halfKnee);
        if (wanted < 0) wanted = 0;
      }
      const pole = wanted > taken ? this.#attack : this.#release;
      taken = wanted + pole * (taken - wanted);
      if (taken < 1e-12) taken = 0;
      const gain = Math.exp(makeUp - taken);
      const rightNow = right[n];
      leftOut[n] = gain * left[n];
      rightOut[n] = gain * rightNow;
    }
    this.#taken = taken;
  }
}
