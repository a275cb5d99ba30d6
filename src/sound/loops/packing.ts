import type { Place, RoomArrays } from "./places.js";

export interface PackLoops {
  /**
   * Samples times a factor as whole numbers of 24 bits, rounded half up, least byte first; two channels interleaved, or one
   * alone. Arrays have `packSpare` samples, and as many times 3 bytes, to spare.
   *
   * @returns gives false where a sample is beyond 24 bits, or no number: the bytes do not count then
   */
  pack24(channels: readonly Float32Array[], bytes: Uint32Array): (frames: number, factor: number) => boolean;
}

export const packSpare = 4;

export interface AssembledPacking {
  /** @param right  0 for none; @returns 0 or 1 */
  pack24(left: Place, right: Place, output: Place, frames: number, factor: number): number;
}

const most = 2 ** 23 - 1;

export const plainPacking: PackLoops = {
  pack24(channels, words) {
    const bytes = new Uint8Array(words.buffer, words.byteOffset, words.byteLength);
    const step = 3 * channels.length;
    return (frames, factor) => {
      for (const [channel, samples] of channels.entries()) {
        for (let n = 0, at = 3 * channel; n < frames; n++, at += step) {
          const x = samples[n] * factor;
          if (!(Math.abs(x) <= most)) return false;
          const whole = Math.floor(x + 0.5);
          bytes[at] = whole;
          bytes[at + 1] = whole >> 8;
          bytes[at + 2] = whole >> 16;
        }
      }
      return true;
    };
  },
};

export const assembledPacking = (loops: AssembledPacking, { at }: RoomArrays): PackLoops => ({
  pack24([left, right], bytes) {
    const [l, r, o] = [at(left), right ? at(right) : 0, at(bytes)];
    return (frames, factor) => loops.pack24(l, r, o, frames, factor) === 1;
  },
});
