import { silent } from "../loops/silent.js";
import { preEchoGain, type SpringDesign } from "./springDesign.js";

/**
 * One spring, at twice its transition frequency, but for its chain of all-passes, which runs beside those of others between
 * `enter` and `leave`; see springDesign.ts.
 */
export class SpringLine {
  readonly #signal: Float64Array;
  readonly #preEcho: Float64Array;
  readonly #preEchoLoss: number;
  readonly #line: Float64Array;
  readonly #turnBack: number;
  readonly #heardSamples: number;
  readonly #heardGain: number;
  #preEchoAt = 0;
  /** Where the next sample goes into the line; the oldest, which turns back, still stands there. */
  #at = 0;

  /** @param signal  in and out of the chain */
  constructor({ gain, preEchoSamples, heardSamples, lineSamples }: SpringDesign, signal: Float64Array) {
    this.#signal = signal;
    this.#preEcho = new Float64Array(preEchoSamples);
    this.#preEchoLoss = gain ** preEchoSamples;
    this.#line = new Float64Array(lineSamples);
    this.#turnBack = -(gain ** lineSamples);
    this.#heardSamples = Math.min(heardSamples, lineSamples - 1);
    this.#heardGain = gain ** this.#heardSamples;
  }

  /** What goes into the chain: the drive, and what turns back. @param samples  no more than the line is long */
  enter(input: Float64Array, from: number, samples: number): void {
    const signal = this.#signal;
    const line = this.#line;
    const length = line.length;
    let at = this.#at;
    for (let n = 0; n < samples; n++) {
      signal[n] = input[from + n] + this.#turnBack * line[at];
      if (++at === length) at = 0;
    }
  }

  /** Takes what the chain gave of the same samples, and adds the spring's sound to `heard`. */
  leave(heard: Float64Array, from: number, samples: number): void {
    this.#addPreEcho(samples);
    const signal = this.#signal;
    const line = this.#line;
    const length = line.length;
    let at = this.#at;
    let hear = at - this.#heardSamples;
    if (hear < 0) hear += length;
    const heardGain = this.#heardGain;
    for (let n = 0; n < samples; n++) {
      line[at] = Math.abs(signal[n]) < silent ? 0 : signal[n];
      heard[from + n] += heardGain * line[hear];
      if (++at === length) at = 0;
      if (++hear === length) hear = 0;
    }
    this.#at = at;
  }

  #addPreEcho(samples: number): void {
    const signal = this.#signal;
    const ring = this.#preEcho;
    const loss = this.#preEchoLoss;
    let at = this.#preEchoAt;
    for (let n = 0; n < samples; n++) {
      const delayed = loss * ring[at];
      const v = signal[n] - preEchoGain * delayed;
      ring[at] = Math.abs(v) < silent ? 0 : v;
      signal[n] = delayed + preEchoGain * v;
      if (++at === ring.length) at = 0;
    }
    this.#preEchoAt = at;
  }
}
