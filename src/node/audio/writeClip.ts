import type { Clip } from "../../sound/audio/clip.js";
import { encodeWav } from "../../sound/audio/encodeWav.js";
import type { WavBits } from "../../sound/audio/wavHead.js";
import { writeWhole } from "../files/wholeFile.js";

/**
 * Writes a short clip as a WAV file, whole or not at all.
 *
 * @throws UserError when the file exists and `force` is not given, or cannot be written; RangeError as `encodeWav`
 * @example
 * ```ts
 * import { writeClip } from "splitsum";
 * const sine = Float32Array.from({ length: 4800 }, (_, n) => 0.5 * Math.sin((2 * Math.PI * 440 * n) / 48_000));
 * writeClip("sine.wav", { rateHz: 48_000, channels: [sine] }, { bits: 24, force: true });
 * ```
 */
export function writeClip(
  file: string,
  clip: Clip,
  { bits, force }: { bits: WavBits; force: boolean },
): void {
  writeWhole(file, encodeWav(clip, bits, file), { force });
}
