import { createHash } from "node:crypto";
import { closeSync, fstatSync, readSync } from "node:fs";
import type { ByteSource } from "../../sound/audio/byteSource.js";
import { UserError } from "../../text/userError.js";
import { fileFault } from "../files/fileFault.js";
import { openRegular } from "../files/openRegular.js";

export interface FileSource extends ByteSource {
  close(): void;
}

/** The largest file read: sizes in a WAV header have 32 bits. */
const largestBytes = 2 ** 32;
const pieceBytes = 1 << 22;

/**
 * Opens a sound file for reading anywhere in it.
 *
 * @throws UserError when it is missing, a folder, a pipe, empty, over 4 GiB or not to be read
 */
export function openFileSource(file: string): FileSource {
  const handle = openRegular(file, "a sound file");
  try {
    const { size } = fstatSync(handle);
    if (size === 0) refuse(file, "is empty (0 bytes). Record or export it again.");
    if (size > largestBytes) {
      const gib = (size / 2 ** 30).toFixed(1);
      refuse(file, `has ${gib} GiB; sound files of up to 4 GiB are read. Cut it into shorter takes.`);
    }
    return {
      name: file,
      size,
      read: (offset, length) => orFault(file, () => readAt(handle, offset, Math.min(length, size - offset))),
      close: () => closeSync(handle),
    };
  } catch (error) {
    closeSync(handle);
    throw error;
  }
}

/** SHA-256 of the whole source in hexadecimal, read piece by piece. */
export function sha256Of(source: ByteSource): string {
  const hash = createHash("sha256");
  for (let offset = 0; offset < source.size; offset += pieceBytes) {
    hash.update(source.read(offset, pieceBytes));
  }
  return hash.digest("hex");
}

function readAt(handle: number, offset: number, length: number): Uint8Array {
  const bytes = new Uint8Array(Math.max(0, length));
  let filled = 0;
  while (filled < bytes.length) {
    const count = readSync(handle, bytes, filled, Math.min(bytes.length - filled, 2 ** 30), offset + filled);
    if (count === 0) return bytes.subarray(0, filled);
    filled += count;
  }
  return bytes;
}

function orFault<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, file, "read");
  }
}

function refuse(file: string, message: string): never {
  throw new UserError({ file, message });
}
