import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileFault } from "./fileFault.js";

/** A text file that is written piece by piece and takes its name, in place of an older one, when it is complete. */
export interface WholeStream {
  write(text: string): void;
  /** All is written. */
  commit(): void;
  /** Not to be: nothing stays. Does nothing after `commit`. */
  discard(): void;
}

const pieceCharacters = 1 << 18;

/** @throws UserError when it cannot be written; every method of it too */
export function openWholeStream(path: string): WholeStream {
  const part = join(dirname(path), `.splitsum-${process.pid}-${counter++}.part`);
  const guarded = <T>(work: () => T): T => {
    try {
      return work();
    } catch (error) {
      throw fileFault(error, path, "write");
    }
  };
  const file = guarded(() => openSync(part, "wx"));
  let isOpen = true;
  let waiting = "";
  const flush = () => {
    const bytes = Buffer.from(waiting, "utf8");
    waiting = "";
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
  };
  const discard = () => {
    if (!isOpen) return;
    isOpen = false;
    process.off("exit", discard);
    closeSync(file);
    rmSync(part, { force: true });
  };
  process.on("exit", discard);
  return {
    write(text) {
      waiting += text;
      if (waiting.length >= pieceCharacters) guarded(flush);
    },
    commit() {
      guarded(() => {
        flush();
        fsyncSync(file);
        renameSync(part, path);
      });
      isOpen = false;
      process.off("exit", discard);
      closeSync(file);
    },
    discard,
  };
}

let counter = 0;
