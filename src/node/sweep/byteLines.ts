import { closeSync, readSync } from "node:fs";
import { fileFault } from "../files/fileFault.js";
import { openRegular } from "../files/openRegular.js";

/** One line of a file, without its end, and where it stands. */
export interface ByteLine {
  /** Valid until the next line is asked for. */
  readonly bytes: Buffer;
  /** Bytes from the start of the file to the line, and to the one behind it. */
  readonly start: number;
  readonly next: number;
}

const pieceBytes = 1 << 18;
const lineEnd = 10;

/**
 * Every complete line of a file, in order, in memory that does not grow with it. What stands behind the last line end,
 * as a program that was killed leaves it, is no line.
 * @throws UserError when the file cannot be read
 */
export function* byteLines(path: string): Generator<ByteLine, void> {
  const file = openRegular(path, "a file of results");
  try {
    let piece = Buffer.alloc(pieceBytes);
    // Bytes in the piece, and where the first of them stands in the file.
    let held = 0;
    let start = 0;
    for (;;) {
      // A line longer than the piece takes a larger one.
      if (held === piece.length) piece = Buffer.concat([piece, Buffer.alloc(piece.length)]);
      const count = guarded(path, () => readSync(file, piece, held, piece.length - held, null));
      if (count === 0) return;
      held += count;
      let from = 0;
      for (let end = lineEndIn(piece, from, held); end >= 0; end = lineEndIn(piece, from, held)) {
        yield { bytes: piece.subarray(from, end), start: start + from, next: start + end + 1 };
        from = end + 1;
      }
      piece.copyWithin(0, from, held);
      held -= from;
      start += from;
    }
  } finally {
    closeSync(file);
  }
}

function lineEndIn(bytes: Buffer, from: number, to: number): number {
  const end = bytes.indexOf(lineEnd, from);
  return end < to ? end : -1;
}

function guarded<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, path, "read");
  }
}
