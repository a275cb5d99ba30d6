/**
 * The newest values of a signal behind those that came before them, in one straight run of memory, oldest first: a
 * filter's loop neither wraps nor copies.
 */
export class Recent {
  /** `length` values of the past; behind them there is room for what comes next. */
  readonly values: Float64Array;
  readonly #length: number;

  /** @param mostNew  the most values that come between two calls of `keep` */
  constructor(length: number, mostNew: number) {
    this.#length = length;
    this.values = new Float64Array(length + mostNew);
  }

  /** `count` values have come; the last `length` of all become the past. */
  keep(count: number): void {
    this.values.copyWithin(0, count, count + this.#length);
  }
}

/** Filters of one length, one for each phase of a change of rate. */
export class FilterBank {
  /** Taps of each filter: a multiple of four. */
  readonly length: number;
  /** Phase by phase; within a phase from the oldest value to the newest. */
  readonly taps: Float64Array;

  /** @param tap gives the tap for the value that is `age` older than the newest */
  constructor(phases: number, count: number, tap: (phase: number, age: number) => number) {
    const length = 4 * Math.ceil(count / 4);
    this.length = length;
    this.taps = Float64Array.from({ length: phases * length }, (_, k) => {
      const age = length - 1 - (k % length);
      return age < count ? tap(Math.floor(k / length), age) : 0;
    });
  }
}

/** Sum of `length` taps from `first` on times values from `start` on. Four sums side by side need not wait for each other. */
export function weighted(
  taps: Float64Array,
  first: number,
  values: Float64Array,
  start: number,
  length: number,
): number {
  let sum0 = 0;
  let sum1 = 0;
  let sum2 = 0;
  let sum3 = 0;
  for (let k = first, v = start, end = first + length; k < end; k += 4, v += 4) {
    sum0 += taps[k] * values[v];
    sum1 += taps[k + 1] * values[v + 1];
    sum2 += taps[k + 2] * values[v + 2];
    sum3 += taps[k + 3] * values[v + 3];
  }
  return sum0 + sum1 + (sum2 + sum3);
}
