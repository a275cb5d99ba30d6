import type { Block, Kernel } from "../../sound/dsp/kernel.js";
import { openRoom, roomBytes } from "../../sound/loops/room.js";
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
  readonly #inputs: readonly Float32Array[];
  readonly #output: Float32Array;
  readonly #run: (frames: number) => void;

  constructor(gains: readonly number[]) {
    const room = openRoom(roomBytes(8 * gains.length, 4 * runFrames * gains.length, 4 * runFrames));
    const all = room.doubles(gains.length);
    all.set(gains);
    const inputs = room.floats(runFrames * gains.length);
    this.#inputs = gains.map((_, k) => inputs.subarray(k * runFrames, (k + 1) * runFrames));
    this.#output = room.floats(runFrames);
    this.#run = room.loops.mix(inputs, all, this.#output);
  }

  process(inputs: Block, [output]: Block, frames: number): void {
    for (let from = 0; from < frames; from += runFrames) {
      const run = Math.min(runFrames, frames - from);
      for (let k = 0; k < inputs.length; k++) this.#inputs[k].set(part(inputs[k], from, run));
      this.#run(run);
      output.set(part(this.#output, 0, run), from);
    }
  }
}

/** Frames summed at a time: as many as a graph's blocks have. */
const runFrames = 1024;

/** The array itself where that is all of it. */
const part = (samples: Float32Array, from: number, frames: number): Float32Array =>
  from === 0 && frames === samples.length ? samples : samples.subarray(from, from + frames);

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
