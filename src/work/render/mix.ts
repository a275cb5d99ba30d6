import type { Block, Kernel } from "../../sound/dsp/kernel.js";
import { silent } from "../../sound/loops/silent.js";

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

/**
 * Sum of mixes; terms of one signal become one, in the order of the signals' numbers. Gains under -600 dB are left out
 * like zeros: nobody hears them, and their products with a dying tail would be denormal.
 */
export function summed(mixes: readonly Mix[]): Mix {
  const gains = new Map<number, number>();
  for (const { signal, gain } of mixes.flat()) gains.set(signal, (gains.get(signal) ?? 0) + gain);
  return [...gains]
    .filter(([, gain]) => Math.abs(gain) >= silent)
    .sort(([a], [b]) => a - b)
    .map(([signal, gain]) => ({ signal, gain }));
}

/** Two mixes with one key are the same sound. */
export const mixKey = (mix: Mix): string => mix.map(({ signal, gain }) => `${gain}*${signal}`).join("+");

/** Sums its inputs with fixed gains, in doubles, rounded once. Any number of inputs, one output. */
export class MixKernel implements Kernel {
  readonly #gains: readonly number[];
  /** Sums on their way, where there are more inputs than one loop takes. */
  #sums = new Float64Array(0);

  constructor(gains: readonly number[]) {
    this.#gains = gains;
  }

  process(inputs: Block, [output]: Block, frames: number): void {
    const count = inputs.length;
    if (count <= 2) addTwo(output, inputs, this.#gains, frames);
    else if (count <= 4) addFour(output, none, inputs, this.#gains, 0, frames);
    else this.#addMany(inputs, output, frames);
  }

  #addMany(inputs: Block, output: Float32Array, frames: number): void {
    if (this.#sums.length < frames) this.#sums = new Float64Array(frames);
    const sums = this.#sums.fill(0, 0, frames);
    let k = 0;
    for (; k + 4 < inputs.length; k += 4) addFour(sums, sums, inputs, this.#gains, k, frames);
    addFour(output, sums, inputs, this.#gains, k, frames);
  }
}

const none = new Float64Array(0);

/** output = g0 x0 + g1 x1; a second input that is not there counts as none. */
function addTwo(output: Float32Array, [x0, x1]: Block, [g0, g1]: readonly number[], frames: number): void {
  if (x1 === undefined) for (let n = 0; n < frames; n++) output[n] = g0 * x0[n];
  else for (let n = 0; n < frames; n++) output[n] = g0 * x0[n] + g1 * x1[n];
}

/** output = base + four terms from number `k` on; terms that are not there, and an empty base, count as none. */
function addFour(
  output: Float32Array | Float64Array,
  base: Float64Array,
  inputs: Block,
  gains: readonly number[],
  k: number,
  frames: number,
): void {
  const g0 = gains[k];
  const g1 = gains[k + 1] ?? 0;
  const g2 = gains[k + 2] ?? 0;
  const g3 = gains[k + 3] ?? 0;
  const x0 = inputs[k];
  const x1 = inputs[k + 1] ?? x0;
  const x2 = inputs[k + 2] ?? x0;
  const x3 = inputs[k + 3] ?? x0;
  if (base.length === 0) {
    for (let n = 0; n < frames; n++) output[n] = g0 * x0[n] + g1 * x1[n] + g2 * x2[n] + g3 * x3[n];
  } else {
    for (let n = 0; n < frames; n++) output[n] = base[n] + g0 * x0[n] + g1 * x1[n] + g2 * x2[n] + g3 * x3[n];
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
