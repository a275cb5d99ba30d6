/** A channel that is read piece by piece: long ones stay on disk. */
export interface TakeReader {
  readonly length: number;
  /** Writes frames `start` to `start + frames` of the take, all of them within it, into the beginning of `into`. */
  read(start: number, frames: number, into: Float32Array): void;
}

/** One channel of sound, in memory or read piece by piece. */
export type TakeChannelSource = Float32Array | TakeReader;

/** Both channels of a take, equal in length, for an instrument with two outputs. */
export interface StereoTake<T extends { readonly length: number } = TakeChannelSource> {
  readonly length: number;
  readonly left: T;
  readonly right: T;
}

/** The sound of an instrument: one channel, which feeds all its outputs, or a channel for each of two. */
export type TakeSource = TakeChannelSource | StereoTake;

/** The same, held in memory. */
export type HeldTake = Float32Array | StereoTake<Float32Array>;

/** One channel, or two as left and right. */
export function joined<T extends { readonly length: number }>([left, right]: readonly T[]):
  | T
  | StereoTake<T> {
  return right === undefined ? left : { length: left.length, left, right };
}

/** What a take is made of, channel by channel, made into something else. */
export function perChannel<T extends { readonly length: number }, U extends { readonly length: number }>(
  take: T | StereoTake<T>,
  make: (channel: T) => U,
): U | StereoTake<U> {
  if (!("left" in take)) return make(take);
  const [left, right] = [make(take.left), make(take.right)];
  return { length: left.length, left, right };
}

/** One channel, or left and right. */
export const channelsOf = <T extends { readonly length: number }>(take: T | StereoTake<T>): readonly T[] =>
  "left" in take ? [take.left, take.right] : [take];

/** Frames `from` to `to` of it, on the same memory. */
export const takePart = (take: HeldTake, from: number, to: number): HeldTake =>
  perChannel(take, (samples) => samples.subarray(from, to));

/** One mono sound of it: its channel, or (left + right) / 2. */
export const monoOf = (take: HeldTake): Float32Array =>
  "left" in take ? take.left.map((x, n) => (x + take.right[n]) / 2) : take;

/** The channel that feeds an output: the left, which is the only one of a mono take, or the right. */
export function channelOf<T extends { readonly length: number }>(take: T | StereoTake<T>, side: 0 | 1): T {
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
