import { lettersAt } from "./byteSource.js";

export type SoundKind = "WAV" | "FLAC" | "MP3" | "AIFF" | "Ogg" | "M4A";

/** What can be read, for messages. */
export const soundKinds = "WAV, FLAC, MP3, AIFF, Ogg or M4A";

/**
 * The kind of a sound file by its first bytes, whatever its name says; null when it is none of those read here.
 *
 * @param head  the first 12 bytes or more
 * Source: RIFF/WAVE (1991), EBU Tech 3306 (RF64), RFC 9639 (FLAC), RFC 3533 (Ogg), AIFF-C (1991),
 *   ISO/IEC 14496-12 (`ftyp`), ISO/IEC 11172-3 2.4.2.3 (MPEG audio sync) and the ID3v2 tag, from memory.
 */
export function soundKind(head: Uint8Array): SoundKind | null {
  const first = lettersAt(head, 0);
  const form = lettersAt(head, 8);
  if (["RIFF", "RF64", "BW64"].includes(first) && form === "WAVE") return "WAV";
  if (first === "fLaC") return "FLAC";
  if (first === "OggS") return "Ogg";
  if (first === "FORM" && (form === "AIFF" || form === "AIFC")) return "AIFF";
  if (lettersAt(head, 4) === "ftyp") return "M4A";
  if (first.startsWith("ID3")) return "MP3";
  return isMpegSync(head) ? "MP3" : null;
}

/** Eleven set bits, then a version, layer III, a bit rate and a sample rate that are not the forbidden ones. */
function isMpegSync(head: Uint8Array): boolean {
  const [a, b, c] = head;
  return a === 0xff && (b & 0xe6) === 0xe2 && (b & 0x18) !== 0x08 && c >> 4 !== 0xf && (c & 0x0c) !== 0x0c;
}
