import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { crc32 } from "../../src/text/crc32.js";
import { randomNumbers } from "../signals.js";

/** The check value of CRC-32/ISO-HDLC, of the nine digits: G. Cook, Catalogue of parametrised CRC algorithms. */
test("the check value", () => {
  expect(crc32(Buffer.from("123456789"))).toBe(0xcbf43926);
  expect(crc32(new Uint8Array(0))).toBe(0);
});

/** A gzip file has the CRC-32 of what it holds eight bytes before its end, least byte first: RFC 1952, 2.3.1. */
test("the same as zlib's", () => {
  const next = randomNumbers(3);
  for (const length of [1, 2, 31, 4096]) {
    const bytes = Uint8Array.from({ length }, () => 256 * next());
    const packed = gzipSync(bytes);
    expect(crc32(bytes)).toBe(packed.readUInt32LE(packed.length - 8));
  }
});
