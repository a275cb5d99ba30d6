import { silent } from "./silent.js";

/**
 * Sections that one loop runs, and how many the last loop may run. Each waits for itself, about nine cycles from one
 * frame to the next, whatever stands beside it: eight together take hardly longer than four.
 */
const together = 8;
const atLeast = 4;
/** Small states are set to zero, and all made to scale, on a grid of frames, whatever the blocks. */
const gridFrames = 64;

/**
 * First-order all-passes in series, H(z) = (a + c z^-1) / (1 + a c z^-1): low frequencies pass sooner than high ones, so
 * that a click becomes a chirp. With c = 1 each section delays by (1 - a^2) / (1 + 2 a cos w + a^2) frames: (1 - a) /
 * (1 + a) at 0, (1 + a) / (1 - a) at half the rate. A c below 1 is the loss of one frame.
 * Source: V. Valimaki, J. S. Parker and J. S. Abel, "Parametric spring reverberation effect", J. Audio Eng. Soc. 58(7/8),
 * 2010. Their sections work at the full rate with z^-K for z^-1; running them at 1/K of the rate is the same thing
 * below the transition frequency fs / (2 K).
 *
 * c z^-1 for z^-1 weights a response by c^n. So the loss is taken out of the loop: the input is weighted by c^-n, the
 * sections run without loss, y = a (x - y1) + x1, and the output is weighted by c^n; n begins anew every 64 frames.
 */
export class DispersiveChain {
  readonly #coefficient: number;
  /** c^-n and c^n, n = 0 .. 63. */
  readonly #up: Float64Array;
  readonly #down: Float64Array;
  /** c^64. */
  readonly #rescale: number;
  /** For each loop the last input and the last outputs of its sections. */
  readonly #states: Float64Array;
  #frame = 0;

  /**
   * @param sections made up to a multiple of four
   * @param gain     c, over 0 and up to 1
   */
  constructor(sections: number, coefficient: number, gain: number) {
    this.#coefficient = coefficient;
    this.#up = Float64Array.from({ length: gridFrames }, (_, n) => gain ** -n);
    this.#down = Float64Array.from({ length: gridFrames }, (_, n) => gain ** n);
    this.#rescale = gain ** gridFrames;
    const made = atLeast * Math.ceil(sections / atLeast);
    this.#states = new Float64Array(made + Math.ceil(made / together));
  }

  /** In place, the first `frames`. */
  process(signal: Float64Array, frames: number): void {
    const up = this.#up;
    const down = this.#down;
    for (let done = 0, run = 0; done < frames; done += run) {
      const into = this.#frame & (gridFrames - 1);
      if (into === 0) this.#flushSilent();
      run = Math.min(frames - done, gridFrames - into);
      for (let n = 0; n < run; n++) signal[done + n] *= up[into + n];
      let state = 0;
      for (; state + together < this.#states.length; state += together + 1) {
        this.#eight(state, signal, done, done + run);
      }
      if (state < this.#states.length) this.#four(state, signal, done, done + run);
      for (let n = 0; n < run; n++) signal[done + n] *= down[into + n];
      this.#frame = (this.#frame + run) | 0;
    }
  }

  #eight(state: number, signal: Float64Array, from: number, to: number): void {
    const states = this.#states;
    const a = this.#coefficient;
    let y0 = states[state];
    let y1 = states[state + 1];
    let y2 = states[state + 2];
    let y3 = states[state + 3];
    let y4 = states[state + 4];
    let y5 = states[state + 5];
    let y6 = states[state + 6];
    let y7 = states[state + 7];
    let y8 = states[state + 8];
    for (let n = from; n < to; n++) {
      const x = signal[n];
      const next1 = a * (x - y1) + y0;
      const next2 = a * (next1 - y2) + y1;
      const next3 = a * (next2 - y3) + y2;
      const next4 = a * (next3 - y4) + y3;
      const next5 = a * (next4 - y5) + y4;
      const next6 = a * (next5 - y6) + y5;
      const next7 = a * (next6 - y7) + y6;
      const next8 = a * (next7 - y8) + y7;
      y0 = x;
      y1 = next1;
      y2 = next2;
      y3 = next3;
      y4 = next4;
      y5 = next5;
      y6 = next6;
      y7 = next7;
      y8 = next8;
      signal[n] = next8;
    }
    states[state] = y0;
    states[state + 1] = y1;
    states[state + 2] = y2;
    states[state + 3] = y3;
    states[state + 4] = y4;
    states[state + 5] = y5;
    states[state + 6] = y6;
    states[state + 7] = y7;
    states[state + 8] = y8;
  }

  #four(state: number, signal: Float64Array, from: number, to: number): void {
    const states = this.#states;
    const a = this.#coefficient;
    let y0 = states[state];
    let y1 = states[state + 1];
    let y2 = states[state + 2];
    let y3 = states[state + 3];
    let y4 = states[state + 4];
    for (let n = from; n < to; n++) {
      const x = signal[n];
      const next1 = a * (x - y1) + y0;
      const next2 = a * (next1 - y2) + y1;
      const next3 = a * (next2 - y3) + y2;
      const next4 = a * (next3 - y4) + y3;
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

  #flushSilent(): void {
    const states = this.#states;
    for (let k = 0; k < states.length; k++) {
      const value = states[k] * this.#rescale;
      states[k] = Math.abs(value) < silent ? 0 : value;
    }
  }
}
