import { silent } from "../loops/silent.js";
import type { MonoKernel } from "./channels.js";

/** H(z) = (b0 + b1 z^-1 + b2 z^-2) / (1 + a1 z^-1 + a2 z^-2). */
export interface BiquadCoefficients {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * One second-order section for one channel: transposed direct form II, state in double precision. `output` may be
 * `input` itself. A tail under 1e-30 becomes 0, so that no denormal number is ever computed with.
 * Source: the form is in J. O. Smith, Introduction to Digital Filters, "Transposed direct forms".
 */
export class Biquad implements MonoKernel {
  readonly #coefficients: BiquadCoefficients;
  #s1 = 0;
  #s2 = 0;
  constructor(coefficients: BiquadCoefficients) {
    this.#coefficients = coefficients;
  }
  process(input: Float32Array, output: Float32Array, frames: number): void {
    const { b0, b1, b2, a1, a2 } = this.#coefficients;
    let s1 = this.#s1;
    let s2 = this.#s2;
    for (let n = 0; n < frames; n++) {
      const x = input[n];
      let y = b0 * x + s1;
      if (Math.abs(y) < silent) y = 0;
      s1 = b1 * x - a1 * y + s2;
      s2 = b2 * x - a2 * y;
      output[n] = y;
    }
    this.#s1 = s1;
    this.#s2 = s2;
  }
}

/** Sections in series on one channel. */
export class BiquadChain implements MonoKernel {
  readonly #sections: readonly Biquad[];
  /** @param sections at least one */
  constructor(sections: readonly BiquadCoefficients[]) {
    this.#sections = sections.map((section) => new Biquad(section));
  }
  process(input: Float32Array, output: Float32Array, frames: number): void {
    let from = input;
    for (const section of this.#sections) {
      section.process(from, output, frames);
      from = output;
    }
  }
}
