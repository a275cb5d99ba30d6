import { Xorshift } from "../dsp/xorshift.js";

/**
 * Triangular dither of one channel: the sum of two independent uniform numbers of 1 LSB each, so -1 to 1 LSB, mean 0,
 * variance 1/6 LSB^2. Rounding then adds 1/12: the error is 1/4 LSB^2 whatever the signal, 4.77 dB over rounding
 * alone, and neither its mean nor its power follows the signal. Channels have generators of their own: one shared
 * noise would sit in the middle of the stereo picture.
 *
 * Source: Lipshitz, Wannamaker and Vanderkooy, "Quantization and Dither: A Theoretical Survey", JAES 40(5), 1992
 *   (from memory).
 */
export class Dither {
  readonly #noise: Xorshift;

  constructor(channel: number) {
    this.#noise = new Xorshift(channel);
  }

  /** The next value, in LSB. */
  nextLsb(): number {
    return this.#noise.next() + this.#noise.next();
  }
}
