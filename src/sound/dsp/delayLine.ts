/**
 * A ring of the last frames of one channel, for loops that take `ring` and `mask` into locals: frame `t` (counted from 0)
 * stands at `ring[t & mask]`. Its length is a power of two, so that wrapping is one `&`.
 */
export class DelayLine {
  readonly ring: Float32Array;
  readonly mask: number;
  /** Where the next frame goes, counted within 32 bits. */
  written = 0;

  /** @param maxDelayFrames longest delay that will be read, at least 0 */
  constructor(maxDelayFrames: number) {
    const length = ringLength(maxDelayFrames);
    this.ring = new Float32Array(length);
    this.mask = length - 1;
  }
}

/** Frames of a ring for delays up to so many: a power of two, with room for the frames that a cubic looks at besides. */
export const ringLength = (maxDelayFrames: number): number =>
  2 ** Math.max(2, Math.ceil(Math.log2(maxDelayFrames + 4)));
