import { FirLine } from "./firLine.js";
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
  readonly #lines: readonly FirLine[];

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
    this.#lines = Array.from({ length: channels }, () => new FirLine(taps, wholeFrames));
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let c = 0; c < this.#lines.length; c++) this.#lines[c].process(inputs[c], outputs[c], frames);
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
