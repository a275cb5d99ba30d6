/** Bytes that can be read anywhere: a file, or a file held in memory. Readers of headers ask for the parts they need. */
export interface ByteSource {
  /** What messages call it. */
  readonly name: string;
  readonly size: number;
  /** Bytes from `offset`; fewer than `length` only where the source ends. */
  read(offset: number, length: number): Uint8Array;
}

/** A file that is in memory already. */
export function bytesSource(name: string, bytes: Uint8Array): ByteSource {
  return {
    name,
    size: bytes.length,
    read: (offset, length) => bytes.subarray(offset, offset + length),
  };
}

/** Four or so letters of a chunk's name; bytes outside ASCII come out as they are. */
export function lettersAt(bytes: Uint8Array, offset: number, count = 4): string {
  return String.fromCharCode(...bytes.subarray(offset, offset + count));
}
