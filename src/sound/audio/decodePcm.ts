import type { Block } from "../dsp/kernel.js";
import type { WavHeader } from "./wavHeader.js";

/**
 * Stored integers of 8, 24 or 32 bits to floats, full scale 1: an n-bit integer is divided by 2^(n-1), so that -2^(n-1)
 * reads as exactly -1 and every integer of up to 24 bits keeps its value; 8 bits are unsigned about 128. 32 bits are
 * rounded to single precision. Other codings are the library's (`wavDecoder.ts`).
 *
 * @param bytes   interleaved frames, little-endian, whole frames only
 * @param output  one array a channel, as many as the header has, at least as long as the frames
 * @returns how many frames there were
 * Source: two's complement, references as for `readWavHeader`.
 */
export function decodePcm(
  bytes: Uint8Array,
  header: Pick<WavHeader, "bits" | "channels">,
  output: Block,
): number {
  const { channels, bits } = header;
  const width = bits / 8;
  const frames = bytes.length / (width * channels);
  const step = width * channels;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let channel = 0; channel < channels; channel++) {
    const out = output[channel];
    let at = channel * width;
    if (bits === 8) {
      for (let n = 0; n < frames; n++, at += step) out[n] = (bytes[at] - 128) / 128;
    } else if (bits === 24) {
      // The top byte goes to the top of 32 bits, so that its sign is the number's; scaling undoes the shift exactly.
      for (let n = 0; n < frames; n++, at += step) {
        out[n] = ((bytes[at] << 8) | (bytes[at + 1] << 16) | (bytes[at + 2] << 24)) / 2_147_483_648;
      }
    } else {
      for (let n = 0; n < frames; n++, at += step) out[n] = view.getInt32(at, true) / 2_147_483_648;
    }
  }
  return frames;
}
