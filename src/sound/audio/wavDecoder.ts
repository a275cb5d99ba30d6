import wavDecoder from "wav-decoder";
import type { WavHeader } from "./wavHeader.js";

/** True for what `wav-decoder` decodes exactly: 16-bit PCM and float. Its 24-bit -1 comes out as +1.0000001, its
 *  32-bit full scale is lopsided, and its 8-bit zero is not 0. */
export const decodesExactly = ({ coding, bits }: Pick<WavHeader, "coding" | "bits">): boolean =>
  coding === "float" || bits === 16;

/**
 * Decodes frames by the library `wav-decoder`: one array a channel.
 *
 * It knows neither extensible headers nor pad bytes, so it is handed the sound behind a plain header of our own.
 *
 * @param sound  interleaved frames, little-endian, whole frames only
 */
export function decodeWithLibrary(sound: Uint8Array, header: WavHeader): readonly Float32Array[] {
  const file = new Uint8Array(44 + sound.length);
  const view = new DataView(file.buffer);
  const letters = (at: number, word: string) => file.set(new TextEncoder().encode(word), at);
  letters(0, "RIFF");
  view.setUint32(4, 36 + sound.length, true);
  letters(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, header.coding === "float" ? 3 : 1, true);
  view.setUint16(22, header.channels, true);
  view.setUint32(24, header.rateHz, true);
  view.setUint32(28, header.rateHz * header.frameBytes, true);
  view.setUint16(32, header.frameBytes, true);
  view.setUint16(34, header.bits, true);
  letters(36, "data");
  view.setUint32(40, sound.length, true);
  file.set(sound, 44);
  return wavDecoder.decode.sync(file.buffer, { symmetric: true }).channelData;
}
