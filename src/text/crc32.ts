/**
 * CRC-32 of bytes, 0 to 2^32 - 1: tells damage of any single stretch of up to 32 bits, and of others but once in 4e9.
 * Source: ITU-T V.42 (03/2002), 8.1.1.6.2; bits reflected, as in Ethernet and ZIP.
 */
export function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (let n = 0; n < bytes.length; n++) crc = (crc >>> 8) ^ table[(crc ^ bytes[n]) & 255];
  return ~crc >>> 0;
}

const polynomial = 0xedb88320;

const table = Int32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ polynomial : rest >>> 1;
  return rest;
});
