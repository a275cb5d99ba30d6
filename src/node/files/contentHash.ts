import { createHash } from "node:crypto";
import { closeSync, fstatSync, openSync, readSync } from "node:fs";

/** SHA-256 (FIPS 180-4) of text or bytes, in hexadecimal. */
export const hashOf = (content: Uint8Array | string): string =>
  createHash("sha256").update(content).digest("hex");

/** SHA-256 of a file, in hexadecimal, in this thread. @throws what the system says */
export function hashOfFile(path: string): string {
  const steps = hashing(path);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The same, with the calling thread free to hear of other things every few milliseconds. */
export async function hashOfFileAsync(path: string): Promise<string> {
  const steps = hashing(path);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    await new Promise((resolve) => setImmediate(resolve));
  }
}

const pieceBytes = 1 << 22;

/** What was read before and has not been touched since (size, times and place on the disk) is not read again. */
const known = new Map<string, { readonly state: string; readonly hash: string }>();

/** Pauses after each piece. */
function* hashing(path: string): Generator<undefined, string> {
  const file = openSync(path, "r");
  try {
    const { dev, ino, size, mtimeNs, ctimeNs } = fstatSync(file, { bigint: true });
    const state = [dev, ino, size, mtimeNs, ctimeNs].join(" ");
    const before = known.get(path);
    if (before?.state === state) return before.hash;
    const hash = createHash("sha256");
    const piece = Buffer.alloc(Math.min(pieceBytes, Number(size) + 1));
    for (let count = readSync(file, piece); count > 0; count = readSync(file, piece)) {
      hash.update(piece.subarray(0, count));
      yield;
    }
    const found = hash.digest("hex");
    known.set(path, { state, hash: found });
    return found;
  } finally {
    closeSync(file);
  }
}
