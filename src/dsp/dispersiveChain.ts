import { silent } from "./silent.js";

/** Sections that are computed side by side, so that none waits for another. */
const together = 4;
/** State of four sections: their last input and their last outputs. */
const stateSize = together + 1;
/** Small states are set to zero on a grid of frames, not at the ends of blocks, so that block sizes cannot matter. */
const gridFrames = 64;

/**
 * First-order all-passes in series, H(z) = (a + c z^-1) / (1 + a c z^-1): low frequencies pass sooner than high ones, so
 * that a click becomes a chirp. With c = 1 each section delays by (1 - a^2) / (1 + 2 a cos w + a^2) frames: (1 - a) /
 * (1 + a) at 0, (1 + a) / (1 - a) at half the rate. A c below 1 is the loss of one frame.
 * Source: V. Valimaki, J. S. Parker and J. S. Abel, "Parametric spring reverberation effect", J. Audio Eng. Soc. 58(7/8),
 * 2010. Their sections work at the full rate with z^-K for z^-1; running them at 1/K of the rate is the same thing
 * below the transition frequency fs / (2 K).
 */
export class DispersiveChain {
  readonly #coefficient: number;
  readonly #gain: number;
  readonly #states: Float64Array;
  #frame = 0;

  /** @param sections made up to a multiple of four */
  constructor(sections: number, coefficient: number, gain: number) {
    this.#coefficient = coefficient;
    this.#gain = gain;
    this.#states = new Float64Array(Math.ceil(sections / together) * stateSize);
  }

  /** In place, from `from` on. */
  process(signal: Float64Array, frames: number): void {
    for (let done = 0, run = 0; done < frames; done += run) {
      const into = this.#frame & (gridFrames - 1);
      if (into === 0) this.#settle();
      run = Math.min(frames - done, gridFrames - into);
      for (let state = 0; state < this.#states.length; state += stateSize) {
        this.#four(state, signal, done, done + run);
      }
      this.#frame = (this.#frame + run) | 0;
    }
  }

  #four(state: number, signal: Float64Array, from: number, to: number): void {
    const states = this.#states;
    const a = this.#coefficient;
    const c = this.#gain;
    const ac = a * c;
    let y0 = states[state];
    let y1 = states[state + 1];
    let y2 = states[state + 2];
    let y3 = states[state + 3];
    let y4 = states[state + 4];
    for (let n = from; n < to; n++) {
      const x = signal[n];
      const next1 = a * x + c * y0 - ac * y1;
      const next2 = a * next1 + c * y1 - ac * y2;
      const next3 = a * next2 + c * y2 - ac * y3;
      const next4 = a * next3 + c * y3 - ac * y4;
      y0 = x;
      y1 = next1;
      y2 = next2;
      y3 = next3;
      y4 = next4;
      signal[n] = next4;
    }
    states[state] = y0;
    states[state + 1] = y1;
    states[state + 2] = y2;
    states[state + 3] = y3;
    states[state + 4] = y4;
  }

  #settle(): void {
    const states = this.#states;
    for (let k = 0; k < states.length; k++) if (Math.abs(states[k]) < silent) states[k] = 0;
  }
}
