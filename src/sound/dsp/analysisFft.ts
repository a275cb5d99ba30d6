import type { Transform } from "../loops/fourier.js";
import { openRoom, type Room, roomBytes } from "../loops/room.js";

/**
 * Complex Fourier transform in doubles for analysis: X[k] = sum x[n] e^(-2 pi i k n / N), N a power of two, at least 2.
 * Forward is unscaled, inverse divides by N, so the two undo each other. Both work in place on two arrays of N.
 */
export class AnalysisFft {
  readonly size: number;
  readonly #transform: Transform;
  /**
   * @param room  where its memory is, if it is to work beside other loops
   * @throws RangeError when `size` is not a power of two
   */
  constructor(size: number, room: Room = openRoom(analysisFftBytes(size))) {
    if (!(size >= 2 && Number.isInteger(Math.log2(size)))) {
      throw new RangeError(`AnalysisFft: size is ${size}; it must be a power of two of at least 2`);
    }
    this.size = size;
    this.#transform = room.loops.transform(size);
  }
  forward(re: Float64Array, im: Float64Array): void {
    this.#load(re, im);
    this.#transform.run();
    this.#unload(re, im, 1);
  }
  /** Real and imaginary parts change places on the way in and out, which turns the forward transform round. */
  inverse(re: Float64Array, im: Float64Array): void {
    this.#load(im, re);
    this.#transform.run();
    this.#unload(im, re, 1 / this.size);
  }
  /**
   * Forward, of interleaved values (`[2k]` real, `[2k + 1]` imaginary), for loops that must be fast: fill `input`, call
   * this, read `output`.
   */
  forwardPairs(): void {
    this.#transform.run();
  }
  get input(): Float64Array {
    return this.#transform.input;
  }
  get output(): Float64Array {
    return this.#transform.output;
  }
  #load(re: Float64Array, im: Float64Array): void {
    const { input } = this.#transform;
    for (let n = 0, at = 0; n < this.size; n++) {
      input[at++] = re[n];
      input[at++] = im[n];
    }
  }
  #unload(re: Float64Array, im: Float64Array, gain: number): void {
    const { output } = this.#transform;
    for (let n = 0, at = 0; n < this.size; n++) {
      re[n] = gain * output[at++];
      im[n] = gain * output[at++];
    }
  }
}

/** What a transform takes in a room. */
export const analysisFftBytes = (size: number): number =>
  roomBytes(16 * size, 16 * size, 16 * size, 4 * size);

/** The least power of two that is at least `count` (and at least 2). */
export function fftSizeFor(count: number): number {
  return 2 ** Math.max(1, Math.ceil(Math.log2(count)));
}
