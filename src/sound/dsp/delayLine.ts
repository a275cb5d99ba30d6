import { cubicBetween } from "../loops/cubic.js";

/**
 * A ring of the last frames of one channel. `write` takes one frame in; reads then count from that frame: delay 0 is
 * the frame just written. Reads between frames are linear or cubic (cubic needs a delay of at least 1 frame, since it
 * looks at one later frame than the two it lies between).
 *
 * The ring's length is a power of two, so that wrapping is one `&`. Loops that must be fast take `ring` and `mask`
 * into locals: frame `t` (counted from 0) stands at `ring[t & mask]`.
 */
export class DelayLine {
  readonly ring: Float32Array;
  readonly mask: number;
  /** Frames written so far, kept within 32 bits; the newest stands at `ring[(written - 1) & mask]`. */
  written = 0;

  /** @param maxDelayFrames longest delay that will be read, whole or not, at least 0 */
  constructor(maxDelayFrames: number) {
    const length = ringLength(maxDelayFrames);
    this.ring = new Float32Array(length);
    this.mask = length - 1;
  }

  write(sample: number): void {
    this.ring[this.written & this.mask] = sample;
    this.written = (this.written + 1) | 0;
  }

  /** @param delayFrames whole, 0 to the longest */
  read(delayFrames: number): number {
    return this.ring[(this.written - 1 - delayFrames) & this.mask];
  }

  /** Straight line between the two nearest frames, as the W3C Web Audio DelayNode reads. @param delayFrames 0 up */
  readLinear(delayFrames: number): number {
    const { ring, mask } = this;
    const whole = Math.floor(delayFrames);
    const at = this.written - 1 - whole;
    const near = ring[at & mask];
    return near + (delayFrames - whole) * (ring[(at - 1) & mask] - near);
  }

  /** Third-order Lagrange through the four nearest frames. @param delayFrames 1 up */
  readCubic(delayFrames: number): number {
    const { ring, mask } = this;
    const whole = Math.floor(delayFrames);
    const at = this.written - 1 - whole;
    return cubicBetween(
      ring[(at + 1) & mask],
      ring[at & mask],
      ring[(at - 1) & mask],
      ring[(at - 2) & mask],
      delayFrames - whole,
    );
  }
}

/** Frames of a ring for delays up to so many: a power of two, with room for the frames that a cubic looks at besides. */
export const ringLength = (maxDelayFrames: number): number =>
  2 ** Math.max(2, Math.ceil(Math.log2(maxDelayFrames + 4)));
