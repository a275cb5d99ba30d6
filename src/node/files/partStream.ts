import { createHash } from "node:crypto";
import { closeSync, fsyncSync, openSync, writeSync } from "node:fs";
import { fileFault } from "./fileFault.js";

/** A text file that is written piece by piece, under a name that is not its last one. */
export interface PartStream {
  write(text: string): void;
  /** All is written, and on the disk. @returns its SHA-256, in hexadecimal */
  end(): string;
  /** Closes it; does nothing after `end`. */
  close(): void;
}

const pieceCharacters = 1 << 18;

/**
 * @param path  what the file will be called, for messages
 * @throws UserError when it cannot be written; every method of it too
 */
export function openPartStream(part: string, path: string): PartStream {
  const guarded = <T>(work: () => T): T => {
    try {
      return work();
    } catch (error) {
      throw fileFault(error, path, "write");
    }
  };
  const file = guarded(() => openSync(part, "wx"));
  const hash = createHash("sha256");
  let isOpen = true;
  let waiting = "";
  const flush = () => {
    const bytes = Buffer.from(waiting, "utf8");
    waiting = "";
    hash.update(bytes);
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
  };
  const close = () => {
    if (isOpen) closeSync(file);
    isOpen = false;
  };
  return {
    write(text) {
      waiting += text;
      if (waiting.length >= pieceCharacters) guarded(flush);
    },
    end() {
      guarded(() => {
        flush();
        fsyncSync(file);
      });
      close();
      return hash.digest("hex");
    },
    close,
  };
}
