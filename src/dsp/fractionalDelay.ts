import { DelayLine } from "./delayLine.js";
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
  readonly #lines: readonly DelayLine[];
  readonly #taps: Float64Array;
  readonly #wholeFrames: number;

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
    this.#wholeFrames = isWhole ? nearest : Math.floor(delayFrames) - (order - 1) / 2;
    this.#taps = isWhole ? Float64Array.of(1) : lagrangeTaps(order, delayFrames - this.#wholeFrames);
    this.#lines = Array.from({ length: channels }, () => new DelayLine(delayFrames + highestOrder));
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let c = 0; c < this.#lines.length; c++) {
      if (this.#taps.length === 1) this.#copy(this.#lines[c], inputs[c], outputs[c], frames);
      else this.#interpolate(this.#lines[c], inputs[c], outputs[c], frames);
    }
  }

  #copy(line: DelayLine, input: Float32Array, output: Float32Array, frames: number): void {
    const { ring, mask, written } = line;
    const wholeFrames = this.#wholeFrames;
    for (let n = 0; n < frames; n++) {
      ring[(written + n) & mask] = input[n];
      output[n] = ring[(written + n - wholeFrames) & mask];
    }
    line.written = (written + frames) | 0;
  }

  #interpolate(line: DelayLine, input: Float32Array, output: Float32Array, frames: number): void {
    const { ring, mask, written } = line;
    const taps = this.#taps;
    const wholeFrames = this.#wholeFrames;
    for (let n = 0; n < frames; n++) {
      ring[(written + n) & mask] = input[n];
      const newest = written + n - wholeFrames;
      let even = 0;
      let odd = 0;
      for (let k = 0; k < taps.length; k += 2) {
        even += taps[k] * ring[(newest - k) & mask];
        odd += taps[k + 1] * ring[(newest - k - 1) & mask];
      }
      output[n] = even + odd;
    }
    line.written = (written + frames) | 0;
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
