import { closeSync, openSync, readSync } from "node:fs";
import { fileFault } from "../files/fileFault.js";

/** One line of a file, without its end, and where it stands. */
export interface TextLine {
  readonly text: string;
  /** Bytes from the start of the file to the line, and to the one behind it. */
  readonly start: number;
  readonly next: number;
}

const pieceBytes = 1 << 20;
const lineEnd = 10;

/**
 * Every complete line of a file, in order, in memory that does not grow with it. What stands behind the last line end,
 * as a program that was killed leaves it, is no line.
 * @throws UserError when the file cannot be read
 */
export function* textLines(path: string): Generator<TextLine, void> {
  const file = guarded(path, () => openSync(path, "r"));
  try {
    let rest = Buffer.alloc(0);
    let start = 0;
    for (;;) {
      const piece = Buffer.allocUnsafe(pieceBytes);
      const count = guarded(path, () => readSync(file, piece, 0, pieceBytes, null));
      if (count === 0) return;
      const bytes = Buffer.concat([rest, piece.subarray(0, count)]);
      let from = 0;
      for (let end = bytes.indexOf(lineEnd); end >= 0; end = bytes.indexOf(lineEnd, from)) {
        yield { text: bytes.toString("utf8", from, end), start: start + from, next: start + end + 1 };
        from = end + 1;
      }
      rest = bytes.subarray(from);
      start += from;
    }
  } finally {
    closeSync(file);
  }
}

function guarded<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, path, "read");
  }
}
