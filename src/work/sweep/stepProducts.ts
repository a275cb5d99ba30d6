import type { Block } from "../../sound/dsp/kernel.js";
import { framesOfSteps } from "../../sound/measure/stepSums.js";

export type Pair = readonly [number, number];

/**
 * Inner products of pairs of signals in consecutive steps of a fixed time, on the grid of `StepSums`. Only whole steps
 * are there; `whole` counts every frame.
 */
export class StepProducts {
  /** One row a pair, longer than the steps so far. */
  #rows: Float64Array[];
  readonly #pairs: readonly Pair[];
  readonly #grid: { readonly stepsPerSecond: number; readonly rateHz: number };
  readonly #open: Float64Array;
  readonly #closed: Float64Array;
  #steps = 0;
  #left: number;

  constructor(stepsPerSecond: number, rateHz: number, pairs: readonly Pair[]) {
    this.#pairs = pairs;
    this.#grid = { stepsPerSecond, rateHz };
    this.#rows = pairs.map(() => new Float64Array(firstSteps));
    this.#open = new Float64Array(pairs.length);
    this.#closed = new Float64Array(pairs.length);
    this.#left = framesOfSteps(0, 1, this.#grid);
  }

  push(signals: Block, frames: number): void {
    for (let from = 0; from < frames; ) {
      const to = Math.min(frames, from + this.#left);
      const open = this.#open;
      const pairs = this.#pairs;
      for (let p = 0; p < pairs.length; p++) {
        open[p] += product(signals[pairs[p][0]], signals[pairs[p][1]], from, to);
      }
      this.#left -= to - from;
      if (this.#left === 0) this.#closeStep();
      from = to;
    }
  }

  /** One row a pair, one entry a step. */
  rows(): Float64Array[] {
    return this.#rows.map((row) => row.subarray(0, this.#steps));
  }

  /** sum(x y) over all frames so far, one entry a pair. */
  whole(): Float64Array {
    return this.#closed.map((sum, p) => sum + this.#open[p]);
  }

  #closeStep(): void {
    if (this.#steps === this.#rows[0]?.length) this.#rows = this.#rows.map(twiceAsLong);
    for (let p = 0; p < this.#rows.length; p++) {
      this.#rows[p][this.#steps] = this.#open[p];
      this.#closed[p] += this.#open[p];
    }
    this.#open.fill(0);
    this.#steps++;
    this.#left = framesOfSteps(this.#steps, 1, this.#grid);
  }
}

const firstSteps = 1024;

function twiceAsLong(row: Float64Array): Float64Array {
  const longer = new Float64Array(2 * row.length);
  longer.set(row);
  return longer;
}

/** Four sums side by side: one alone would wait for each addition. */
function product(x: Float32Array, y: Float32Array, from: number, to: number): number {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let n = from;
  for (; n + 3 < to; n += 4) {
    a += x[n] * y[n];
    b += x[n + 1] * y[n + 1];
    c += x[n + 2] * y[n + 2];
    d += x[n + 3] * y[n + 3];
  }
  for (; n < to; n++) a += x[n] * y[n];
  return a + b + (c + d);
}
