import { closeSync, openSync, readSync, writeSync } from "node:fs";
import { join } from "node:path";
import type { Block } from "../../sound/dsp/kernel.js";
import type { TrackSink } from "../../work/render/trackSink.js";
import { fileFault } from "../files/fileFault.js";

/** Frames that lie together in a spool: a left stretch, then a right one. The last pair may be shorter. */
const chunkFrames = 16_384;
/** Of a frame: two sides, 32-bit floats. */
const frameBytes = 8;

/** What all renders of a comparison may take in memory, of 63 s of nine choices at 48 kHz 218 MB; longer ones lie on disk. */
const mostHeldBytes = 256e6;

/** Bytes of each of so many renders that may wait in memory; 0 where already the take is longer than that. */
export function heldBytesEach(tracks: number, takeFrames: number): number {
  const each = mostHeldBytes / tracks;
  return takeFrames * frameBytes <= each ? each : 0;
}

/** Where the sound of a part's wiring `n` goes. */
export const spoolPath = (folder: string, part: number, n: number): string =>
  join(folder, `${part}-${n}.f32`);

/** A stereo render until its gain is known: its chunks in memory that threads share, or the file that holds them. */
export type Spool = { readonly chunks: readonly Float32Array[] } | { readonly path: string };

/** Keeps a render as plain 32-bit floats: in memory, and from the chunk on that goes beyond `heldBytes` whole on disk. */
export class SpoolWriter implements TrackSink {
  readonly #path: string;
  readonly #heldBytes: number;
  #held: Float32Array[] = [];
  #file: number | null = null;
  #chunk: Float32Array = new Float32Array(0);
  #filled = 0;

  /** @throws UserError, as `write` and `close` do, when a file is needed and cannot be written */
  constructor(path: string, heldBytes: number) {
    this.#path = path;
    this.#heldBytes = heldBytes;
    if (heldBytes === 0) this.#goToDisk();
  }

  get spool(): Spool {
    return this.#file === null ? { chunks: this.#held } : { path: this.#path };
  }

  write(left: Float32Array, right: Float32Array, frames: number): void {
    for (let done = 0; done < frames; ) {
      if (this.#filled === 0) this.#chunk = this.#emptyChunk();
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
    if (this.#file !== null) closeSync(this.#file);
  }

  /** A new one in memory; on disk the same again. */
  #emptyChunk(): Float32Array {
    const bytes = chunkFrames * frameBytes;
    if (this.#file === null && (this.#held.length + 1) * bytes > this.#heldBytes) this.#goToDisk();
    if (this.#file === null) return new Float32Array(new SharedArrayBuffer(bytes));
    return this.#chunk.length > 0 ? this.#chunk : new Float32Array(2 * chunkFrames);
  }

  #flush(): void {
    const frames = this.#filled;
    this.#chunk.copyWithin(frames, chunkFrames, chunkFrames + frames);
    const whole = this.#chunk.subarray(0, 2 * frames);
    if (this.#file === null) this.#held.push(whole);
    else this.#append(this.#file, whole);
    this.#filled = 0;
  }

  #goToDisk(): void {
    const file = guarded(this.#path, () => openSync(this.#path, "wx"));
    this.#file = file;
    for (const chunk of this.#held) this.#append(file, chunk);
    this.#held = [];
    this.#chunk = new Float32Array(0);
  }

  #append(file: number, chunk: Float32Array): void {
    const bytes = new Uint8Array(chunk.buffer, chunk.byteOffset, chunk.byteLength);
    guarded(this.#path, () => {
      for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
    });
  }
}

/** Gives a spool of `frames` frames back, chunk by chunk; the block is valid during the call only. */
export function readSpool(spool: Spool, frames: number, sink: (block: Block, frames: number) => void): void {
  const chunks = "chunks" in spool ? spool.chunks : chunksIn(spool.path, frames);
  for (const chunk of chunks) {
    const count = chunk.length / 2;
    sink([chunk.subarray(0, count), chunk.subarray(count)], count);
  }
}

function* chunksIn(path: string, frames: number): Generator<Float32Array> {
  const file = guarded(path, () => openSync(path, "r"));
  const chunk = new Float32Array(2 * chunkFrames);
  const bytes = new Uint8Array(chunk.buffer);
  try {
    for (let done = 0; done < frames; ) {
      const count = Math.min(chunkFrames, frames - done);
      for (let at = 0; at < frameBytes * count; ) {
        const read = readSync(file, bytes, at, frameBytes * count - at, null);
        if (read === 0) throw new Error(`${path}: ends after ${done} of ${frames} frames`);
        at += read;
      }
      yield chunk.subarray(0, 2 * count);
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
