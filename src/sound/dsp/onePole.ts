import { silent } from "../loops/silent.js";

/**
 * The pole of a first-order low-pass H(z) = (1 - p) / (1 - p z^-1) that is 3 dB down at its corner:
 * p = b - sqrt(b^2 - 1) with b = 2 - cos(2 pi f / fs), from |H|^2 = (1 - p)^2 / (1 - 2 p cos w + p^2) = 1/2.
 * A corner above half the rate is held there.
 */
export function lowPassPole(cutoffHz: number, rateHz: number): number {
  const b = 2 - Math.cos(2 * Math.PI * Math.min(cutoffHz / rateHz, 0.5));
  return b - Math.sqrt(b * b - 1);
}

/** |H| of (1 - p) / (1 - p z^-1) at one frequency, as a factor. */
export function onePoleGain(pole: number, frequencyHz: number, rateHz: number): number {
  const cosine = Math.cos((2 * Math.PI * frequencyHz) / rateHz);
  return (1 - pole) / Math.sqrt(1 - 2 * pole * cosine + pole * pole);
}

/** First-order low-pass, in place: y[n] = (1 - p) x[n] + p y[n - 1]. */
export class OnePole {
  readonly #pole: number;
  #y = 0;
  constructor(pole: number) {
    this.#pole = pole;
  }
  process(signal: Float64Array, frames: number): void {
    const p = this.#pole;
    const b = 1 - p;
    let y = this.#y;
    for (let n = 0; n < frames; n++) {
      y = b * signal[n] + p * y;
      if (Math.abs(y) < silent) y = 0;
      signal[n] = y;
    }
    this.#y = y;
  }
}

/** First-order high-pass, in place: y[n] = b (x[n] - x[n - 1]) + p y[n - 1] with b = (1 + p) / 2, 3 dB down at its corner. */
export class OnePoleCut {
  readonly #pole: number;
  #x = 0;
  #y = 0;
  constructor(cutoffHz: number, rateHz: number) {
    const tangent = Math.tan((Math.PI * cutoffHz) / rateHz);
    this.#pole = (1 - tangent) / (1 + tangent);
  }
  process(signal: Float64Array, frames: number): void {
    const p = this.#pole;
    const b = (1 + p) / 2;
    let x = this.#x;
    let y = this.#y;
    for (let n = 0; n < frames; n++) {
      y = b * (signal[n] - x) + p * y;
      if (Math.abs(y) < silent) y = 0;
      x = signal[n];
      signal[n] = y;
    }
    this.#x = x;
    this.#y = y;
  }
}
