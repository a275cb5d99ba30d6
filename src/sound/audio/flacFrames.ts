import { UserError } from "../../text/userError.js";
import { lettersAt } from "./byteSource.js";

/** What STREAMINFO says of a FLAC file. */
export interface FlacInfo {
  readonly rateHz: number;
  readonly channels: number;
  readonly bits: number;
  /** Frames of sound (not FLAC frames); null when the file does not say. */
  readonly framesPromised: number | null;
  /** `fLaC` and STREAMINFO alone: what a decoder needs ahead of any run of FLAC frames. */
  readonly head: Uint8Array;
  /** The smallest block, the one of a stream with blocks of one size. */
  readonly blockFrames: number;
  /** Where the first FLAC frame is. */
  readonly start: number;
}

/** One FLAC frame: a block of sound that can be decoded by itself. */
export interface FlacFrame {
  readonly at: number;
  readonly end: number;
  readonly frames: number;
}

/**
 * Reads STREAMINFO and skips all other metadata.
 *
 * @throws UserError with `file` when the metadata is cut off or damaged
 * Source: RFC 9639 (2024), sections 8.1 and 8.2.
 */
export function readFlacInfo(bytes: Uint8Array, file: string): FlacInfo {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let info: Omit<FlacInfo, "start"> | null = null;
  for (let at = 4; at + 4 <= bytes.length; ) {
    const isLast = bytes[at] >= 0x80;
    const type = bytes[at] & 0x7f;
    const size = view.getUint32(at) & 0xffffff;
    if (type === 0 && size >= 34 && at + 38 <= bytes.length) info = streamInfo(bytes, view, at + 4);
    at += 4 + size;
    if (isLast && info !== null && at <= bytes.length) return { ...info, start: at };
    if (isLast) break;
  }
  throw new UserError({ file, message: "is a FLAC file whose head is cut off. Copy or export it again." });
}

/** STREAMINFO of a file's first 42 bytes, which it always begins with; null when they are no such thing. */
export function flacStreamInfo(bytes: Uint8Array): Omit<FlacInfo, "start"> | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return bytes.length >= 42 && (bytes[4] & 0x7f) === 0 ? streamInfo(bytes, view, 8) : null;
}

/**
 * Finds the whole FLAC frames in order: each begins where its forerunner's sound ends and passes both its checks, CRC-8
 * over the header and CRC-16 over the frame. The list ends at the first that does not: a cut file gives what is whole.
 *
 * Source: RFC 9639 (2024), section 9.1 (header, block sizes, coded number), 9.3 (CRC-16).
 */
export function flacFrames(bytes: Uint8Array, info: FlacInfo): FlacFrame[] {
  const heads: { at: number; frames: number }[] = [];
  let nextFrame = -1;
  for (let at = bytes.indexOf(0xff, info.start); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const head = frameHead(bytes, at, info.blockFrames);
    if (head === null || (nextFrame >= 0 && head.firstFrame !== nextFrame)) continue;
    nextFrame = head.firstFrame + head.frames;
    heads.push({ at, frames: head.frames });
  }
  const found: FlacFrame[] = [];
  for (const [n, { at, frames }] of heads.entries()) {
    const end = n + 1 < heads.length ? heads[n + 1].at : soundEnd(bytes);
    if (end - at < 8 || crc16(bytes, at, end) !== 0) break;
    found.push({ at, frames, end });
  }
  return found;
}

function streamInfo(bytes: Uint8Array, view: DataView, at: number): Omit<FlacInfo, "start"> {
  const packed = view.getUint32(at + 10);
  const frames = (view.getUint8(at + 13) & 0x0f) * 2 ** 32 + view.getUint32(at + 14);
  const head = new Uint8Array(42);
  head.set([0x66, 0x4c, 0x61, 0x43, 0x80, 0, 0, 34]);
  head.set(bytes.subarray(at, at + 34), 8);
  return {
    rateHz: packed >>> 12,
    channels: ((packed >>> 9) & 7) + 1,
    bits: ((packed >>> 4) & 31) + 1,
    framesPromised: frames === 0 ? null : frames,
    blockFrames: view.getUint16(at),
    head,
  };
}

/** A frame header at `at`, checked by its CRC-8; null when there is none, or the bytes end within it. */
function frameHead(bytes: Uint8Array, at: number, blockFrames: number) {
  if ((bytes[at + 1] & 0xfe) !== 0xf8) return null;
  const sizeCode = bytes[at + 2] >> 4;
  const rateCode = bytes[at + 2] & 15;
  if (sizeCode === 0 || rateCode === 15 || bytes[at + 3] & 1) return null;
  let end = at + 4;
  const first = bytes[end++];
  let number = first;
  if (first >= 0x80) {
    const more = Math.clz32(~(first << 24)) - 1;
    if (more < 1 || more > 6) return null;
    number = first & (0x3f >> more);
    for (let n = 0; n < more; n++) number = number * 64 + (bytes[end++] & 0x3f);
  }
  let frames = sizeCode === 1 ? 192 : sizeCode < 6 ? 576 << (sizeCode - 2) : 256 << (sizeCode - 8);
  if (sizeCode === 6) frames = bytes[end++] + 1;
  if (sizeCode === 7) {
    frames = bytes[end] * 256 + bytes[end + 1] + 1;
    end += 2;
  }
  end += rateCode < 12 ? 0 : rateCode === 12 ? 1 : 2;
  if (crc8(bytes, at, end) !== bytes[end]) return null;
  const blocksVary = (bytes[at + 1] & 1) === 1;
  return { firstFrame: blocksVary ? number : number * blockFrames, frames };
}

/** The end of the sound: the end of the file, less a tag of 128 bytes that some programs put there. */
function soundEnd(bytes: Uint8Array): number {
  const tag = bytes.length - 128;
  return tag > 0 && lettersAt(bytes, tag, 3) === "TAG" ? tag : bytes.length;
}

function crc8(bytes: Uint8Array, from: number, to: number): number {
  let crc = 0;
  for (let n = from; n < to; n++) {
    crc ^= bytes[n];
    for (let bit = 0; bit < 8; bit++) crc = crc & 0x80 ? ((crc << 1) ^ 0x07) & 0xff : crc << 1;
  }
  return crc;
}

/** Over a whole frame, its own check included, this comes to 0. */
function crc16(bytes: Uint8Array, from: number, to: number): number {
  let crc = 0;
  for (let n = from; n < to; n++) crc = ((crc << 8) & 0xffff) ^ crc16Table[(crc >> 8) ^ bytes[n]];
  return crc;
}

/** Polynomial x^16 + x^15 + x^2 + 1. */
const crc16Table = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte << 8;
  for (let bit = 0; bit < 8; bit++) crc = crc & 0x8000 ? ((crc << 1) ^ 0x8005) & 0xffff : crc << 1;
  return crc;
});
