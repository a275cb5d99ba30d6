import type { Place, RoomArrays } from "./places.js";

export interface TapLoops {
  /**
   * output[n] = sum over m of taps[m] values[past + n - m], n = 0 .. frames - 1, in doubles, rounded once. Even and odd taps
   * have a sum each, so that additions need not wait for each other.
   *
   * @param taps    an even number, no more than `past` + 1
   * @param values  `past` of them before the newest, and at least `firSpare` behind
   * @param output  as long as the newest values, and those to spare
   */
  fir(taps: Float64Array, values: Float64Array, past: number, output: Float32Array): (frames: number) => void;
}

/** Frames beyond those that are wanted which the last step of `fir` may look at and write. */
export const firSpare = 4;

export interface AssembledTaps {
  fir(taps: Place, count: number, newest: Place, output: Place, frames: number): void;
}

export const plainTaps: TapLoops = {
  fir: (taps, values, past, output) => (frames) => fir(taps, values, past, output, frames),
};

/** Four frames are computed side by side: each tap and each value is then fetched once for four products. */
function fir(
  taps: Float64Array,
  values: Float64Array,
  past: number,
  output: Float32Array,
  frames: number,
): void {
  const count = taps.length;
  for (let n = 0; n < frames; n += 4) {
    const newest = past + n;
    let x1 = values[newest + 1];
    let x2 = values[newest + 2];
    let x3 = values[newest + 3];
    let even0 = 0;
    let even1 = 0;
    let even2 = 0;
    let even3 = 0;
    let odd0 = 0;
    let odd1 = 0;
    let odd2 = 0;
    let odd3 = 0;
    for (let m = 0; m < count; m += 2) {
      const x0 = values[newest - m];
      const before = values[newest - m - 1];
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
    output[n] = even0 + odd0;
    output[n + 1] = even1 + odd1;
    output[n + 2] = even2 + odd2;
    output[n + 3] = even3 + odd3;
  }
}

export const assembledTaps = (loops: AssembledTaps, { at }: RoomArrays): TapLoops => ({
  fir(taps, values, past, output) {
    const [t, newest, o] = [at(taps), at(values) + 8 * past, at(output)];
    return (frames) => loops.fir(t, taps.length, newest, o, frames);
  },
});
