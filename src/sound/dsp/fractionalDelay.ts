import type { Block, Kernel } from "./kernel.js";

/** Highest order of the interpolator: 32 taps keep the top octave whole. */
const highestOrder = 31;

/**
 * A fixed delay of any length for every channel, n in and n out: the latency of a pedal.
 * Whole frames are copied exactly. Between frames a Lagrange interpolator of odd order N works at its centre, where
 * its gain never exceeds 1; N is the highest that fits the delay, 2 floor(D) + 1, up to 31.
 * Source: J. O. Smith, Physical Audio Signal Processing, "Lagrange interpolation".
 */
export class FractionalDelay implements Kernel {
  readonly #lines: readonly FractionalLine[];

  /**
   * @param delayFrames 0 or more, need not be whole
   * @param channels    in and out, 1 unless told otherwise
   * @throws RangeError for a delay that is negative or not finite
   */
  constructor(delayFrames: number, channels = 1) {
    if (!(delayFrames >= 0 && delayFrames < 2 ** 30)) {
      throw new RangeError(
        `FractionalDelay: delayFrames is ${delayFrames}; it must be finite and at least 0`,
      );
    }
    const nearest = Math.round(delayFrames);
    const isWhole = Math.abs(delayFrames - nearest) < 1e-6;
    const order = isWhole ? 0 : Math.min(highestOrder, 2 * Math.floor(delayFrames) + 1);
    const wholeFrames = isWhole ? nearest : Math.floor(delayFrames) - (order - 1) / 2;
    const taps = isWhole ? Float64Array.of(1) : lagrangeTaps(order, delayFrames - wholeFrames);
    this.#lines = Array.from({ length: channels }, () => new FractionalLine(wholeFrames, taps));
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let c = 0; c < this.#lines.length; c++) this.#lines[c].process(inputs[c], outputs[c], frames);
  }
}

/** Frames that the last group of four may look at beyond the stretch. */
const spareFrames = 4;

/** Frames taken in at a time. */
const stretchFrames = 2048;

/**
 * One channel. The past and the newest stretch lie in one straight run of memory, oldest first, so that the filter's
 * loop neither wraps nor masks.
 */
class FractionalLine {
  readonly #taps: Float64Array;
  /** Frames before the newest stretch that are still needed. */
  readonly #past: number;
  readonly #run: Float64Array;

  constructor(wholeFrames: number, taps: Float64Array) {
    this.#taps = taps;
    this.#past = wholeFrames + taps.length - 1;
    this.#run = new Float64Array(this.#past + stretchFrames + spareFrames);
  }

  process(input: Float32Array, output: Float32Array, frames: number): void {
    const run = this.#run;
    const past = this.#past;
    for (let from = 0; from < frames; from += stretchFrames) {
      const count = Math.min(stretchFrames, frames - from);
      for (let n = 0; n < count; n++) run[past + n] = input[from + n];
      if (this.#taps.length === 1) for (let n = 0; n < count; n++) output[from + n] = run[n];
      else this.#filter(output, from, count);
      run.copyWithin(0, count, past + count);
    }
  }

  /** The last tap meets the oldest frame, `run[n]`. Four frames at a time share what they load. */
  #filter(output: Float32Array, from: number, count: number): void {
    const taps = this.#taps;
    const run = this.#run;
    const last = taps.length - 1;
    for (let n = 0; n < count; n += 4) {
      let y0 = 0;
      let y1 = 0;
      let y2 = 0;
      let y3 = 0;
      let x0 = run[n];
      let x1 = run[n + 1];
      let x2 = run[n + 2];
      for (let k = last, at = n + 3; k >= 0; k--, at++) {
        const tap = taps[k];
        const x3 = run[at];
        y0 += tap * x0;
        y1 += tap * x1;
        y2 += tap * x2;
        y3 += tap * x3;
        x0 = x1;
        x1 = x2;
        x2 = x3;
      }
      output[from + n] = y0;
      if (n + 1 < count) output[from + n + 1] = y1;
      if (n + 2 < count) output[from + n + 2] = y2;
      if (n + 3 < count) output[from + n + 3] = y3;
    }
  }
}

/** h[n] = product over k != n of (D - k) / (n - k), n = 0..order. */
export function lagrangeTaps(order: number, delayFrames: number): Float64Array {
  return Float64Array.from({ length: order + 1 }, (_, n) => {
    let tap = 1;
    for (let k = 0; k <= order; k++) if (k !== n) tap *= (delayFrames - k) / (n - k);
    return tap;
  });
}
