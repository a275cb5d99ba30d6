import { join, letters } from "./wavBytes.js";

/**
 * A mono FLAC file of 16 bits at 48 kHz, digital silence, byte by byte: every frame has one value (10 to 15 bytes).
 * @param framesPromised  what its head says; 0: nothing
 * Source: RFC 9639 (2024), sections 8.2, 9.1, 9.2.2, 9.3.
 */
export function silentFlac(blocks: number, framesPromised = 0): Uint8Array {
  const info = Buffer.alloc(34);
  info.writeUInt16BE(blockFrames, 0);
  info.writeUInt16BE(blockFrames, 2);
  info.writeUInt32BE(((48_000 << 12) | (15 << 4)) >>> 0, 10);
  info.writeUInt32BE(framesPromised, 14);
  const frames = Array.from({ length: blocks }, (_, n) => silentFrame(n));
  return join(letters("fLaC"), Uint8Array.of(0x80, 0, 0, 34), info, ...frames);
}

/** The largest block. */
export const blockFrames = 65_535;

function silentFrame(number: number): Uint8Array {
  const coded = new TextEncoder().encode(String.fromCodePoint(number < 0xd800 ? number : 0));
  const size = [(blockFrames - 1) >> 8, (blockFrames - 1) & 255];
  const head = [0xff, 0xf8, 0x7a, 0x08, ...coded, ...size];
  const frame = [...head, crc(head, 8, 0x07), 0x00, 0, 0];
  const check = crc(frame, 16, 0x8005);
  return Uint8Array.from([...frame, check >> 8, check & 255]);
}

function crc(bytes: readonly number[], bits: number, polynomial: number): number {
  let rest = 0;
  for (const byte of bytes) {
    rest ^= byte << (bits - 8);
    for (let n = 0; n < 8; n++) rest = (rest << 1) ^ (rest & (1 << (bits - 1)) ? polynomial : 0);
    rest &= 2 ** bits - 1;
  }
  return rest;
}
