import type { Block, Kernel } from "../dsp/kernel.js";

/** A signal as a weighted sum of others: splitters, summing boxes, mixers and dry paths are nothing else. */
export type Mix = readonly Term[];
export interface Term {
  /** A signal's number in the graph. */
  readonly signal: number;
  readonly gain: number;
}

export const silence: Mix = [];

/** gain * mix. */
export const scaled = (mix: Mix, gain: number): Mix =>
  gain === 1 ? mix : mix.map((term) => ({ signal: term.signal, gain: term.gain * gain }));

/** Sum of mixes; terms of one signal become one, in the order of the signals' numbers, zeros left out. */
export function summed(mixes: readonly Mix[]): Mix {
  const gains = new Map<number, number>();
  for (const { signal, gain } of mixes.flat()) gains.set(signal, (gains.get(signal) ?? 0) + gain);
  return [...gains]
    .filter(([, gain]) => gain !== 0)
    .sort(([a], [b]) => a - b)
    .map(([signal, gain]) => ({ signal, gain }));
}

/** Two mixes with one key are the same sound. */
export const mixKey = (mix: Mix): string => mix.map(({ signal, gain }) => `${gain}*${signal}`).join("+");

/** Sums its inputs with fixed gains, in doubles, rounded once. Any number of inputs, one output. */
export class MixKernel implements Kernel {
  readonly #gains: readonly number[];
  constructor(gains: readonly number[]) {
    this.#gains = gains;
  }
  process(inputs: Block, [output]: Block, frames: number): void {
    const [g0 = 0, g1 = 0, g2 = 0] = this.#gains;
    const [x0, x1, x2] = inputs;
    if (inputs.length === 1) for (let n = 0; n < frames; n++) output[n] = g0 * x0[n];
    else if (inputs.length === 2) for (let n = 0; n < frames; n++) output[n] = g0 * x0[n] + g1 * x1[n];
    else if (inputs.length === 3) {
      for (let n = 0; n < frames; n++) output[n] = g0 * x0[n] + g1 * x1[n] + g2 * x2[n];
    } else this.#processMany(inputs, output!, frames);
  }
  #processMany(inputs: Block, output: Float32Array, frames: number): void {
    for (let n = 0; n < frames; n++) {
      let sum = 0;
      for (let k = 0; k < inputs.length; k++) sum += this.#gains[k] * inputs[k][n];
      output[n] = sum;
    }
  }
}

/** A copy, `frames` whole frames late. */
export class LagKernel implements Kernel {
  readonly #line: Float32Array;
  #at = 0;
  constructor(frames: number) {
    this.#line = new Float32Array(frames);
  }
  process([input]: Block, [output]: Block, frames: number): void {
    const line = this.#line;
    const length = line.length;
    let at = this.#at;
    for (let n = 0; n < frames; n++) {
      const late = line[at];
      line[at] = input[n];
      output[n] = late;
      if (++at === length) at = 0;
    }
    this.#at = at;
  }
}
