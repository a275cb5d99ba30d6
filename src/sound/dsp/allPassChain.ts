import { silent } from "./silent.js";

/** One Schroeder section: its delay in frames and its coefficient, 0 to under 1. */
export interface AllPassSection {
  readonly delayFrames: number;
  readonly coefficient: number;
}

/**
 * Schroeder all-passes in series, in place: each spreads a click over time and leaves every frequency at its level.
 * H(z) = (g + z^-D) / (1 + g z^-D), as a lattice: v[n] = x[n] - g v[n - D], y[n] = v[n - D] + g v[n].
 * The response to an impulse is g, then (1 - g^2)(-g)^(k-1) every D frames; its energy is 1.
 * Source: M. R. Schroeder, "Natural sounding artificial reverberation", J. Audio Eng. Soc. 10(3), 1962.
 */
export class AllPassChain {
  readonly #sections: readonly Section[];
  constructor(sections: readonly AllPassSection[]) {
    this.#sections = sections.map((section) => new Section(section));
  }
  /** Changes the first `frames` frames of `signal`. */
  process(signal: Float64Array, frames: number): void {
    for (const section of this.#sections) section.process(signal, frames);
  }
}

class Section {
  readonly #coefficient: number;
  readonly #ring: Float32Array;
  #at = 0;
  constructor({ delayFrames, coefficient }: AllPassSection) {
    this.#coefficient = coefficient;
    this.#ring = new Float32Array(Math.max(1, Math.round(delayFrames)));
  }
  process(signal: Float64Array, frames: number): void {
    const g = this.#coefficient;
    const ring = this.#ring;
    const length = ring.length;
    let at = this.#at;
    for (let n = 0; n < frames; n++) {
      const delayed = ring[at];
      let v = signal[n] - g * delayed;
      if (Math.abs(v) < silent) v = 0;
      ring[at] = v;
      signal[n] = delayed + g * v;
      if (++at === length) at = 0;
    }
    this.#at = at;
  }
}
