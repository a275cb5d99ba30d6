import { closeSync, mkdtempSync, openSync, readSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { ChannelStore } from "../../sound/audio/takeIntake.js";
import { fileFault } from "../files/fileFault.js";

/** A long take on disk, as plain 32-bit floats. Plain data: threads of one process share its handle. */
export interface SpooledTake {
  /** An open file that has no name any more: whatever ends the program, nothing is left behind. */
  readonly handle: number;
  readonly length: number;
}

/** Puts a channel of a take on disk, in the system's folder for passing files (TMPDIR). */
export class TakeSpool implements ChannelStore {
  readonly #handle: number;
  #length = 0;
  #piece = new Float32Array(0);
  #frames = 0;

  /** @throws UserError when the file cannot be made */
  constructor() {
    this.#handle = guarded(openNameless);
  }

  room(_start: number, frames: number): Float32Array {
    if (this.#piece.length < frames) this.#piece = new Float32Array(frames);
    this.#frames = frames;
    return this.#piece.subarray(0, frames);
  }

  keep(): void {
    const bytes = new Uint8Array(this.#piece.buffer, 0, 4 * this.#frames);
    guarded(() => {
      for (let at = 0; at < bytes.length; ) at += writeSync(this.#handle, bytes, at);
    });
    this.#length += this.#frames;
  }

  take(): SpooledTake {
    return { handle: this.#handle, length: this.#length };
  }
}

export function closeSpooled({ handle }: SpooledTake): void {
  closeSync(handle);
}

/** Frames that lie ready at a time. */
const stretchFrames = 1 << 16;

/** Reads a spooled take from anywhere; from start to end it asks the disk once a stretch. */
export function readerOf({ handle, length }: SpooledTake) {
  const stretch = new Float32Array(stretchFrames);
  let from = 0;
  let until = 0;
  const load = (start: number): void => {
    from = start;
    until = Math.min(length, start + stretchFrames);
    const bytes = new Uint8Array(stretch.buffer, 0, 4 * (until - from));
    guarded(() => {
      for (let at = 0; at < bytes.length; ) {
        const count = readSync(handle, bytes, at, bytes.length - at, 4 * from + at);
        if (count === 0) throw new Error(`the spool of the take ends early, in frame ${from}`);
        at += count;
      }
    });
  };
  return {
    length,
    read(start: number, frames: number, into: Float32Array): void {
      for (let done = 0; done < frames; ) {
        const at = start + done;
        if (at < from || at >= until) load(at);
        const count = Math.min(frames - done, until - at);
        into.set(stretch.subarray(at - from, at - from + count), done);
        done += count;
      }
    },
  };
}

/** Made, opened, and its name taken away again. */
function openNameless(): number {
  const folder = mkdtempSync(join(tmpdir(), "splitsum-take-"));
  try {
    return openSync(join(folder, "take.f32"), "wx+");
  } finally {
    remove(folder);
  }
}

/** Where a system does not let go of the name of an open file, it goes when the program ends. */
function remove(folder: string): void {
  const force = () => rmSync(folder, { recursive: true, force: true });
  try {
    force();
  } catch {
    process.once("exit", force);
  }
}

function guarded<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, `${tmpdir()} (TMPDIR)`, "write");
  }
}
