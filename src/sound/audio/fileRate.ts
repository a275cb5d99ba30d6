import { readAiffHead } from "./aiffHead.js";
import { lettersAt } from "./byteSource.js";
import { flacFrames, readFlacInfo } from "./flacFrames.js";
import { mpegRateHz, mpegSeconds } from "./mpegAudio.js";
import type { SoundKind } from "./soundKind.js";

/**
 * The sample rate that a compressed file says it has, Hz, so that it is decoded without conversion; null when it cannot
 * be told.
 * @throws UserError for a FLAC file whose head is cut off
 * Source: RFC 9639 (FLAC), ISO/IEC 11172-3 2.4.2.3 and 13818-3 (MPEG audio), RFC 7845 (Opus), Vorbis I 4.2.2,
 *   ISO/IEC 14496-12 (sample entries); all but the first from memory.
 */
export function fileRateHz(bytes: Uint8Array, kind: SoundKind, file: string): number | null {
  switch (kind) {
    case "FLAC":
      return readFlacInfo(bytes, file).rateHz;
    case "MP3":
      return mpegRateHz(bytes);
    case "Ogg":
      return oggRateHz(bytes);
    case "M4A":
      return mp4RateHz(bytes);
    case "AIFF":
      return readAiffHead(bytes, file).rateHz;
    default:
      return null;
  }
}

/**
 * How long a compressed file says its sound is, seconds, so that a small file is not decoded to gigabytes; null when it
 * does not say. A FLAC file's frames are counted as well: its head may say less.
 *
 * Source: as above; RFC 3533 (granule position of an Ogg page), ISO/IEC 14496-12 8.2.2 (movie header); from memory.
 */
export function fileSeconds(bytes: Uint8Array, kind: SoundKind, file: string): number | null {
  if (kind === "FLAC") {
    const info = readFlacInfo(bytes, file);
    const frames = flacFrames(bytes, info).reduce((sum, frame) => sum + frame.frames, 0);
    return Math.max(frames, info.framesPromised ?? 0) / info.rateHz;
  }
  if (kind === "Ogg") {
    const rateHz = oggRateHz(bytes);
    const frames = oggFrames(bytes);
    return rateHz && frames !== null ? frames / rateHz : null;
  }
  if (kind === "MP3") return mpegSeconds(bytes);
  if (kind === "AIFF") {
    const { frames, rateHz } = readAiffHead(bytes, file);
    return rateHz > 0 ? frames / rateHz : null;
  }
  return kind === "M4A" ? mp4Seconds(bytes) : null;
}

/** The first packet stands behind the first page's segment table. Opus always decodes to 48 kHz. */
function oggRateHz(bytes: Uint8Array): number | null {
  const packet = 27 + (bytes[26] ?? 0);
  if (lettersAt(bytes, packet, 8) === "OpusHead") return 48_000;
  if (lettersAt(bytes, packet + 1, 6) !== "vorbis" || bytes.length < packet + 16) return null;
  return viewOf(bytes).getUint32(packet + 12, true);
}

/** The granule position of the last page that has one counts the frames up to there. */
function oggFrames(bytes: Uint8Array): number | null {
  for (let at = bytes.lastIndexOf(0x4f); at >= 0; at = at > 0 ? bytes.lastIndexOf(0x4f, at - 1) : -1) {
    if (lettersAt(bytes, at) !== "OggS" || at + 14 > bytes.length) continue;
    const frames = viewOf(bytes).getBigInt64(at + 6, true);
    if (frames >= 0) return Number(frames);
  }
  return null;
}

/** Duration over time scale of the movie header, of version 0 or 1. */
function mp4Seconds(bytes: Uint8Array): number | null {
  const view = viewOf(bytes);
  for (let at = bytes.indexOf(0x6d); at >= 0; at = bytes.indexOf(0x6d, at + 1)) {
    if (lettersAt(bytes, at) !== "mvhd" || at + 36 > bytes.length) continue;
    const isLong = bytes[at + 4] === 1;
    const scale = view.getUint32(at + (isLong ? 24 : 16));
    const duration = isLong ? Number(view.getBigUint64(at + 28)) : view.getUint32(at + 20);
    return scale > 0 ? duration / scale : null;
  }
  return null;
}

/** Of the first `mp4a` sample entry: whole Hz in the upper half of a 16.16 number. */
function mp4RateHz(bytes: Uint8Array): number | null {
  for (let at = bytes.indexOf(0x6d); at >= 0; at = bytes.indexOf(0x6d, at + 1)) {
    if (lettersAt(bytes, at) !== "mp4a" || at + 32 > bytes.length) continue;
    const rateHz = viewOf(bytes).getUint16(at + 28);
    if (rateHz > 0) return rateHz;
  }
  return null;
}

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
