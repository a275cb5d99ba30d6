import type { Block, Kernel } from "./kernel.js";

/**
 * The first input until `startFrame`, the second from `fadeFrames` later on; between, first + w (second - first) with
 * w = (1 - cos(pi t)) / 2. Two inputs, one output; no latency. Equal gain: like signals stay as they are.
 */
export class Crossfade implements Kernel {
  readonly #startFrame: number;
  readonly #fadeFrames: number;
  #frame = 0;
  /** @param fadeFrames  0 or more; 0 is a hard cut */
  constructor(startFrame: number, fadeFrames: number) {
    this.#startFrame = startFrame;
    this.#fadeFrames = fadeFrames;
  }

  process([before, after]: Block, [output]: Block, frames: number): void {
    const start = Math.max(0, Math.min(frames, this.#startFrame - this.#frame));
    const end = Math.max(start, Math.min(frames, this.#startFrame + this.#fadeFrames - this.#frame));
    const step = Math.PI / this.#fadeFrames;
    const offset = this.#frame - this.#startFrame;
    for (let n = 0; n < start; n++) output[n] = before[n];
    for (let n = start; n < end; n++) {
      const weight = 0.5 - 0.5 * Math.cos((n + offset) * step);
      output[n] = before[n] + weight * (after[n] - before[n]);
    }
    for (let n = end; n < frames; n++) output[n] = after[n];
    this.#frame += frames;
  }
}
