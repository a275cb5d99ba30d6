/** The first taps of a response, summed directly. */
export interface FirHead {
  /** output[from + n] += sum of taps[m] * heap[at + n - m], for `frames` frames. */
  add(heap: Float32Array, at: number, output: Float32Array, from: number, frames: number): void;
}

/** Null when the first `count` taps (an even number) hold nothing but zeros. */
export function firHead(response: Float32Array, count: number): FirHead | null {
  const taps = Float64Array.from({ length: count }, (_, m) => response[m] ?? 0);
  return taps.some((tap) => tap !== 0) ? new Taps(taps) : null;
}

/**
 * Even and odd taps have a sum each, in double precision, so that additions need not wait for each other. Four frames
 * are computed side by side where four are there: each tap and each input is then fetched once for four products.
 * The order of additions within a frame is the same either way, and so are the bits.
 */
class Taps implements FirHead {
  readonly #taps: Float64Array;
  constructor(taps: Float64Array) {
    this.#taps = taps;
  }

  add(heap: Float32Array, at: number, output: Float32Array, from: number, frames: number): void {
    const taps = this.#taps;
    const count = taps.length;
    let n = 0;
    for (; n + 4 <= frames; n += 4) {
      const newest = at + n;
      let x1 = heap[newest + 1];
      let x2 = heap[newest + 2];
      let x3 = heap[newest + 3];
      let even0 = 0;
      let even1 = 0;
      let even2 = 0;
      let even3 = 0;
      let odd0 = 0;
      let odd1 = 0;
      let odd2 = 0;
      let odd3 = 0;
      for (let m = 0; m < count; m += 2) {
        const x0 = heap[newest - m];
        const before = heap[newest - m - 1];
        const even = taps[m];
        const odd = taps[m + 1];
        even0 += even * x0;
        even1 += even * x1;
        even2 += even * x2;
        even3 += even * x3;
        odd0 += odd * before;
        odd1 += odd * x0;
        odd2 += odd * x1;
        odd3 += odd * x2;
        x3 = x1;
        x2 = x0;
        x1 = before;
      }
      output[from + n] += even0 + odd0;
      output[from + n + 1] += even1 + odd1;
      output[from + n + 2] += even2 + odd2;
      output[from + n + 3] += even3 + odd3;
    }
    for (; n < frames; n++) {
      let even = 0;
      let odd = 0;
      for (let m = 0; m < count; m += 2) {
        even += taps[m] * heap[at + n - m];
        odd += taps[m + 1] * heap[at + n - m - 1];
      }
      output[from + n] += even + odd;
    }
  }
}
