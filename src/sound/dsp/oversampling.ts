import { Doubler, Halver, halfBandCoefficients, halfBandDelay } from "./halfBand.js";

/** Times the rate at which a bent curve is applied. */
export const oversampling = 8;

/** Pass band of the whole, as a share of the rate: 20 kHz at 44.1 kHz. */
const passBand = 20_000 / 44_100;
/** Sections of each doubling, first to third: 100 dB and more of stop band each. */
const sectionsOfStage = [10, 4, 3] as const;

const stages = sectionsOfStage.map((sections, stage) =>
  halfBandCoefficients(sections, 0.5 - (2 * passBand) / 2 ** (stage + 1)),
);

/** Delay of low tones, up and down again, in frames. */
export const oversamplingDelayFrames = stages.reduce(
  (sum, stage, n) => sum + (2 * halfBandDelay(stage) - 1) / 2 ** (n + 1),
  0,
);

/** Frames worked at once, and the grid of frames on which faint states are set to zero, whatever the blocks. */
const runFrames = 64;

/**
 * Eight times the rate and back, for one channel, so that what a bent curve adds above half the rate is filtered off
 * before it can fold down: `up` gives 8 values a frame, the caller bends them in place, `down` brings them back.
 * Both work on as many frames a call as `ready` says.
 */
export class Oversampler {
  readonly #up = stages.map((stage) => new Doubler(stage));
  readonly #down = stages.map((stage) => new Halver(stage));
  readonly #levels = [1, 2, 4, 8].map((times) => new Float64Array(times * runFrames));
  readonly #all = [...this.#up, ...this.#down];
  #into = 0;

  /** How many frames the next call takes: at least 1, at most `frames`. */
  ready(frames: number): number {
    return Math.min(frames, runFrames - this.#into);
  }

  up(input: Float32Array, from: number, frames: number): Float64Array {
    if (this.#into === 0) for (const stage of this.#all) stage.flushSilent();
    const levels = this.#levels;
    const base = levels[0];
    for (let n = 0; n < frames; n++) base[n] = input[from + n];
    for (let stage = 0; stage < 3; stage++) {
      this.#up[stage].process(levels[stage], levels[stage + 1], frames << stage);
    }
    return levels[3];
  }

  down(output: Float32Array, from: number, frames: number): void {
    const levels = this.#levels;
    for (let stage = 2; stage >= 0; stage--) {
      this.#down[stage].process(levels[stage + 1], levels[stage], frames << stage);
    }
    const base = levels[0];
    for (let n = 0; n < frames; n++) output[from + n] = base[n];
    this.#into = (this.#into + frames) % runFrames;
  }
}
