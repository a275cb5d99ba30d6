import type { Block } from "../dsp/kernel.js";

/** What is known of one channel once all of it has been seen. */
export interface ChannelFacts {
  readonly frames: number;
  readonly peak: number;
  /** Sum of samples and of their squares. */
  readonly sum: number;
  readonly energy: number;
  /** Runs of three or more equal samples at full scale or over: a converter or a limiter at its stop. */
  readonly clippedRuns: number;
  readonly firstClippedFrame: number | null;
  /** The first sample that is not finite or beyond `loudestSample`. */
  readonly firstUnusable: { readonly frame: number; readonly value: number } | null;
}

/**
 * 120 dB over full scale, times full scale: louder than any coding's integers written as floats by mistake, and so far
 * from the largest float that no gain or sum of squares behind it overflows. Common practice, no source.
 */
export const loudestSample = 1e6;

/** How many equal full-scale samples in a row count as clipping: common practice, no source. */
const clippedRunFrames = 3;

/** Looks over one channel, block after block. `fullScale` is the coding's largest positive sample. */
export class ChannelCheck {
  readonly #fullScale: number;
  #frames = 0;
  #peak = 0;
  #sum = 0;
  #energy = 0;
  #last = Number.NaN;
  #run = 0;
  #clippedRuns = 0;
  #firstClippedFrame: number | null = null;
  #firstUnusable: { frame: number; value: number } | null = null;

  constructor(fullScale: number) {
    this.#fullScale = fullScale;
  }

  add(samples: Float32Array, frames: number): void {
    const fullScale = this.#fullScale;
    const start = this.#frames;
    let sum = 0;
    let energy = 0;
    let peak = this.#peak;
    let run = this.#run;
    let last = this.#last;
    for (let n = 0; n < frames; n++) {
      const x = samples[n];
      sum += x;
      energy += x * x;
      const size = x < 0 ? -x : x;
      if (size > peak) peak = size;
      if (size >= fullScale) {
        run = x === last ? run + 1 : 1;
        last = x;
        if (run === clippedRunFrames) {
          this.#clippedRuns++;
          this.#firstClippedFrame ??= start + n - clippedRunFrames + 1;
        }
      } else run = 0;
    }
    this.#run = run;
    this.#last = last;
    this.#peak = peak;
    this.#sum += sum;
    this.#energy += energy;
    this.#frames += frames;
    if (this.#firstUnusable === null && !(energy < Number.POSITIVE_INFINITY && peak <= loudestSample)) {
      const frame = samples.subarray(0, frames).findIndex((x) => !(Math.abs(x) <= loudestSample));
      if (frame >= 0) this.#firstUnusable = { frame: start + frame, value: samples[frame] };
    }
  }

  facts(): ChannelFacts {
    return {
      frames: this.#frames,
      peak: this.#peak,
      sum: this.#sum,
      energy: this.#energy,
      clippedRuns: this.#clippedRuns,
      firstClippedFrame: this.#firstClippedFrame,
      firstUnusable: this.#firstUnusable,
    };
  }
}

/** Sum of products of the first two channels of a block, for their correlation. */
export function crossEnergy([left, right]: Block, frames: number): number {
  let cross = 0;
  for (let n = 0; n < frames; n++) cross += left[n] * right[n];
  return cross;
}
