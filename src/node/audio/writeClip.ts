import type { Clip } from "../../sound/audio/clip.js";
import { encodeWav } from "../../sound/audio/encodeWav.js";
import type { WavBits } from "../../sound/audio/wavHead.js";
import { writeWhole } from "../files/wholeFile.js";

/**
 * Writes a short clip as a WAV file, whole or not at all.
 *
 * @throws UserError when the file exists and `force` is not given, or cannot be written; RangeError as `encodeWav`
 */
export function writeClip(
  file: string,
  clip: Clip,
  { bits, force }: { bits: WavBits; force: boolean },
): void {
  writeWhole(file, encodeWav(clip, bits, file), { force });
}
