import { openRoom, roomBytes } from "../loops/room.js";
import { firSpare } from "../loops/taps.js";

/** Frames taken in at a time. */
const stretchFrames = 1024;

/**
 * A finite response with doubles, y[n] = sum over m of taps[m] x[n - delay - m]. The past and the newest stretch lie in one
 * straight run of memory, oldest first, so that the loop neither wraps nor masks.
 */
export class FirLine {
  /** Frames before the newest stretch that are still needed. */
  readonly #past: number;
  readonly #values: Float64Array;
  readonly #output: Float32Array;
  readonly #run: (frames: number) => void;

  /** @param delayFrames  whole, 0 or more */
  constructor(taps: Float64Array, delayFrames = 0) {
    const count = 2 * Math.ceil(taps.length / 2);
    const past = count - 1;
    this.#past = delayFrames + past;
    const values = this.#past + stretchFrames + firSpare;
    const output = stretchFrames + firSpare;
    const room = openRoom(roomBytes(8 * count, 8 * values, 4 * output));
    const even = room.doubles(count);
    even.set(taps);
    this.#values = room.doubles(values);
    this.#output = room.floats(output);
    this.#run = room.loops.fir(even, this.#values, past, this.#output);
  }

  /** Writes `frames` frames of the response to as many of the input, or adds them to what is there. */
  process(input: Float32Array, output: Float32Array, frames: number, adds = false): void {
    const values = this.#values;
    const made = this.#output;
    const past = this.#past;
    for (let from = 0; from < frames; from += stretchFrames) {
      const count = Math.min(stretchFrames, frames - from);
      for (let n = 0; n < count; n++) values[past + n] = input[from + n];
      this.#run(count);
      if (adds) for (let n = 0; n < count; n++) output[from + n] += made[n];
      else for (let n = 0; n < count; n++) output[from + n] = made[n];
      values.copyWithin(0, count, past + count);
    }
  }
}
