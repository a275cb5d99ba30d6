import { cubicBetween } from "./cubic.js";
import type { Place, RoomArrays } from "./places.js";

/** Floats behind the end of a ring, where its first ones may stand again. */
export const ringSpare = 4;

export interface ReadLoops {
  /**
   * output[n] = the ring's sound centre + swing values[lfoAt + n] frames before frame start + n, by cubics; it may write one
   * value more. The ring's length is a power of two, and `ringSpare` floats more, where its first stand again; delays are at
   * least one frame.
   */
  cubicReads(ring: Float32Array, values: Float64Array, output: Float32Array): CubicReads;
  /** values[n] = twice values[n - 4] - values[n - 8], from the ninth to the last; their number is a multiple of four. */
  recur(values: Float64Array): (twice: number) => void;
}

export type CubicReads = (
  start: number,
  frames: number,
  lfoAt: number,
  centre: number,
  swing: number,
) => void;

export interface AssembledReads {
  cubicReads(
    ring: Place,
    mask: number,
    values: Place,
    output: Place,
    start: number,
    frames: number,
    centre: number,
    swing: number,
  ): void;
  recur(values: Place, count: number, twice: number): void;
}

export const plainReads: ReadLoops = {
  cubicReads: (ring, values, output) => (start, frames, lfoAt, centre, swing) =>
    cubicReads(ring, values, output, start, frames, lfoAt, centre, swing),
  recur: (values) => (twice) => {
    for (let n = 8; n < values.length; n++) values[n] = twice * values[n - 4] - values[n - 8];
  },
};

function cubicReads(
  ring: Float32Array,
  values: Float64Array,
  output: Float32Array,
  start: number,
  frames: number,
  lfoAt: number,
  centre: number,
  swing: number,
): void {
  const mask = ring.length - ringSpare - 1;
  for (let n = 0; n < frames; n++) {
    const delay = centre + swing * values[lfoAt + n];
    const whole = delay | 0;
    const t = start + n - whole;
    output[n] = cubicBetween(
      ring[(t + 1) & mask],
      ring[t & mask],
      ring[(t - 1) & mask],
      ring[(t - 2) & mask],
      delay - whole,
    );
  }
}

export const assembledReads = (loops: AssembledReads, { at }: RoomArrays): ReadLoops => ({
  cubicReads(ring, values, output) {
    const [r, v, o] = [at(ring), at(values), at(output)];
    const mask = ring.length - ringSpare - 1;
    return (start, frames, lfoAt, centre, swing) =>
      loops.cubicReads(r, mask, v + 8 * lfoAt, o, start, frames, centre, swing);
  },
  recur(values) {
    const v = at(values);
    return (twice) => loops.recur(v, values.length, twice);
  },
});
