import { DispersiveChain } from "./dispersiveChain.js";
import { silent } from "./silent.js";
import { preEchoGain, type SpringDesign, springCoefficient } from "./springDesign.js";

/** One spring, at twice its transition frequency; see springDesign.ts. */
export class SpringLine {
  /** No call may take more samples than this. */
  readonly mostSamples: number;
  readonly #chain: DispersiveChain;
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

  constructor({ sections, gain, preEchoSamples, heardSamples, lineSamples }: SpringDesign) {
    this.mostSamples = Math.min(128, lineSamples);
    this.#chain = new DispersiveChain(sections, springCoefficient, gain);
    this.#signal = new Float64Array(this.mostSamples);
    this.#preEcho = new Float64Array(preEchoSamples);
    this.#preEchoLoss = gain ** preEchoSamples;
    this.#line = new Float64Array(lineSamples);
    this.#turnBack = -(gain ** lineSamples);
    this.#heardSamples = Math.min(heardSamples, lineSamples - 1);
    this.#heardGain = gain ** this.#heardSamples;
  }

  /** Adds the spring's sound to `heard`. */
  process(input: Float64Array, heard: Float64Array, from: number, samples: number): void {
    const signal = this.#signal;
    const line = this.#line;
    const length = line.length;
    let at = this.#at;
    for (let n = 0; n < samples; n++) {
      signal[n] = input[from + n] + this.#turnBack * line[at];
      if (++at === length) at = 0;
    }
    this.#chain.process(signal, samples);
    this.#addPreEcho(samples);
    at = this.#at;
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
