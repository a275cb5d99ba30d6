import type { LoopNumbers } from "../loops/echoes.js";
import { silent } from "../loops/silent.js";

/**
 * What a feedback path needs to stay clean: a first-order high-pass that keeps steady offsets out, and a one-pole
 * low-pass that darkens each lap. The gain never exceeds 1, so a loop stays bounded by its own feedback.
 *
 *     high-pass  y(n) = g (x(n) - x(n-1)) + R y(n-1),  R = exp(-2 pi f/rateHz), g = (1 + R)/2
 *     low-pass   z(n) = z(n-1) + k (y(n) - z(n-1)),    k = 1 - exp(-2 pi f/rateHz)
 *
 * Source: J. O. Smith, Introduction to Digital Filters, "DC blocker" and "One-pole filter".
 */
export class LoopFilter {
  readonly #numbers: LoopNumbers;
  #before = 0;
  #high = 0;
  #low = 0;

  /** @param lowPassHz corner of the low-pass; Infinity leaves it out. @param highPassHz corner of the high-pass */
  constructor(lowPassHz: number, highPassHz: number, rateHz: number) {
    this.#numbers = loopNumbers(lowPassHz, highPassHz, rateHz);
  }

  next(sample: number): number {
    const { gain, pole, share } = this.#numbers;
    let high = gain * (sample - this.#before) + pole * this.#high;
    if (Math.abs(high) < silent) high = 0;
    let low = this.#low + share * (high - this.#low);
    if (Math.abs(low) < silent) low = 0;
    this.#before = sample;
    this.#high = high;
    this.#low = low;
    return low;
  }
}

/** @param lowPassHz corner of the low-pass; Infinity leaves it out. @param highPassHz corner of the high-pass */
export function loopNumbers(lowPassHz: number, highPassHz: number, rateHz: number): LoopNumbers {
  const pole = Math.exp((-2 * Math.PI * highPassHz) / rateHz);
  return { pole, gain: (1 + pole) / 2, share: 1 - Math.exp((-2 * Math.PI * lowPassHz) / rateHz) };
}
