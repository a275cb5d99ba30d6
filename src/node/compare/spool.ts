import { closeSync, openSync, readSync, writeSync } from "node:fs";
import { join } from "node:path";
import type { Block } from "../../sound/dsp/kernel.js";
import type { TrackSink } from "../../work/render/trackSink.js";
import { fileFault } from "../files/fileFault.js";

/** Frames that lie together in a spool: a left stretch, then a right one. The last pair may be shorter. */
const chunkFrames = 16_384;

/** Where the sound of a part's wiring `n` goes. */
export const spoolPath = (folder: string, part: number, n: number): string =>
  join(folder, `${part}-${n}.f32`);

/** A stereo render on its way to disk as plain 32-bit floats, until its gain is known. */
export class SpoolWriter implements TrackSink {
  readonly #path: string;
  readonly #file: number;
  readonly #chunk = new Float32Array(2 * chunkFrames);
  #filled = 0;

  /** @throws UserError when the file cannot be made */
  constructor(path: string) {
    this.#path = path;
    this.#file = guarded(path, () => openSync(path, "wx"));
  }

  write(left: Float32Array, right: Float32Array, frames: number): void {
    for (let done = 0; done < frames; ) {
      const count = Math.min(frames - done, chunkFrames - this.#filled);
      this.#chunk.set(left.subarray(done, done + count), this.#filled);
      this.#chunk.set(right.subarray(done, done + count), chunkFrames + this.#filled);
      this.#filled += count;
      done += count;
      if (this.#filled === chunkFrames) this.#flush();
    }
  }

  close(): void {
    if (this.#filled > 0) this.#flush();
    closeSync(this.#file);
  }

  #flush(): void {
    const frames = this.#filled;
    this.#chunk.copyWithin(frames, chunkFrames, chunkFrames + frames);
    const bytes = new Uint8Array(this.#chunk.buffer, 0, 8 * frames);
    guarded(this.#path, () => {
      for (let at = 0; at < bytes.length; ) at += writeSync(this.#file, bytes, at);
    });
    this.#filled = 0;
  }
}

/** Gives a spool of `frames` frames back, chunk by chunk; the block is valid during the call only. */
export function readSpool(path: string, frames: number, sink: (block: Block, frames: number) => void): void {
  const file = guarded(path, () => openSync(path, "r"));
  const chunk = new Float32Array(2 * chunkFrames);
  const bytes = new Uint8Array(chunk.buffer);
  try {
    for (let done = 0; done < frames; ) {
      const count = Math.min(chunkFrames, frames - done);
      for (let at = 0; at < 8 * count; ) {
        const read = readSync(file, bytes, at, 8 * count - at, null);
        if (read === 0) throw new Error(`${path}: ends after ${done} of ${frames} frames`);
        at += read;
      }
      sink([chunk.subarray(0, count), chunk.subarray(count, 2 * count)], count);
      done += count;
    }
  } finally {
    closeSync(file);
  }
}

function guarded<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, path, "write");
  }
}
