/** A take that is read piece by piece: long ones stay on disk. */
export interface TakeReader {
  readonly length: number;
  /** Writes frames `start` to `start + frames` of the take, all of them within it, into the beginning of `into`. */
  read(start: number, frames: number, into: Float32Array): void;
}

/** One channel of sound, in memory or read piece by piece. */
export type TakeSource = Float32Array | TakeReader;

/** Writes frames of a take into the beginning of `into`; past its end there is silence. */
export function readFrames(take: TakeSource, start: number, frames: number, into: Float32Array): void {
  const there = Math.max(0, Math.min(frames, take.length - start));
  if (there > 0) {
    if (take instanceof Float32Array) into.set(take.subarray(start, start + there));
    else take.read(start, there, into);
  }
  into.fill(0, there, frames);
}
