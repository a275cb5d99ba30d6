/** The last `length` values of a signal, always in one piece: written twice, a length apart. */
export class Recent {
  readonly values: Float64Array;
  /** Where the oldest of the last `length` values stands. */
  start = 0;
  readonly #length: number;
  constructor(length: number) {
    this.#length = length;
    this.values = new Float64Array(2 * length);
  }
  write(value: number): void {
    this.values[this.start] = value;
    this.values[this.start + this.#length] = value;
    this.start = this.start + 1 === this.#length ? 0 : this.start + 1;
  }
}

/** Filters of one length, one for each phase of a change of rate. */
export class FilterBank {
  /** Taps of each filter: a multiple of four. */
  readonly length: number;
  readonly #taps: Float64Array;

  /** @param tap gives the tap for the value that is `age` older than the newest */
  constructor(phases: number, count: number, tap: (phase: number, age: number) => number) {
    const length = 4 * Math.ceil(count / 4);
    this.length = length;
    this.#taps = Float64Array.from({ length: phases * length }, (_, k) => {
      const age = length - 1 - (k % length);
      return age < count ? tap(Math.floor(k / length), age) : 0;
    });
  }

  /** Filters what `recent` holds; its length is this bank's. Four sums side by side need not wait for each other. */
  sum(phase: number, recent: Recent): number {
    const taps = this.#taps;
    const { values, start } = recent;
    const first = phase * this.length;
    let sum0 = 0;
    let sum1 = 0;
    let sum2 = 0;
    let sum3 = 0;
    for (let k = 0; k < this.length; k += 4) {
      sum0 += taps[first + k] * values[start + k];
      sum1 += taps[first + k + 1] * values[start + k + 1];
      sum2 += taps[first + k + 2] * values[start + k + 2];
      sum3 += taps[first + k + 3] * values[start + k + 3];
    }
    return sum0 + sum1 + (sum2 + sum3);
  }
}
