import { UserError } from "../../text/userError.js";
import { lettersAt } from "./byteSource.js";

/**
 * What an AIFF file promises in its common chunk.
 * @throws UserError with `file` when it has none
 * Source: Apple, AIFF-C specification (1991), from memory; the rate is an 80-bit float: exponent, then a mantissa with
 *   its leading one.
 */
export function readAiffHead(
  bytes: Uint8Array,
  file: string,
): { readonly frames: number; readonly rateHz: number } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 12; at + 26 <= bytes.length; ) {
    if (lettersAt(bytes, at) === "COMM") {
      const exponent = (view.getUint16(at + 16) & 0x7fff) - 16_383;
      return { frames: view.getUint32(at + 10), rateHz: view.getUint32(at + 18) * 2 ** (exponent - 31) };
    }
    const size = view.getUint32(at + 4);
    at += 8 + size + (size % 2);
  }
  throw new UserError({ file, message: "is an AIFF file without a format chunk. Export it again." });
}
