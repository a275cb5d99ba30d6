/** A channel that is read piece by piece: long ones stay on disk. */
export interface TakeReader {
  readonly length: number;
  /** Writes frames `start` to `start + frames` of the take, all of them within it, into the beginning of `into`. */
  read(start: number, frames: number, into: Float32Array): void;
}

/** One channel of sound, in memory or read piece by piece. */
export type TakeChannelSource = Float32Array | TakeReader;

/** Both channels of a take, equal in length, for an instrument with two outputs. */
export interface StereoTake<T extends TakeChannelSource = TakeChannelSource> {
  readonly length: number;
  readonly left: T;
  readonly right: T;
}

/** The sound of an instrument: one channel, which feeds all its outputs, or a channel for each of two. */
export type TakeSource = TakeChannelSource | StereoTake;

/** The channel that feeds an output: the left, which is the only one of a mono take, or the right. */
export function channelOf<T extends TakeChannelSource>(take: T | StereoTake<T>, side: 0 | 1): T {
  if (!("left" in take)) return take;
  return side === 0 ? take.left : take.right;
}

/** Writes frames of a channel into the beginning of `into`; past its end there is silence. */
export function readFrames(take: TakeChannelSource, start: number, frames: number, into: Float32Array): void {
  const there = Math.max(0, Math.min(frames, take.length - start));
  if (there > 0) {
    if (take instanceof Float32Array) into.set(take.subarray(start, start + there));
    else take.read(start, there, into);
  }
  into.fill(0, there, frames);
}
