import { lettersAt } from "./byteSource.js";

/** One frame of MPEG audio, layer III. */
interface MpegFrame {
  readonly rateHz: number;
  /** Frames of sound in it. */
  readonly frames: number;
  /** Its length in the file; null where its bit rate is free or forbidden. */
  readonly bytes: number | null;
}

/** Sample rate of the first frame behind the tag; null when there is none. */
export const mpegRateHz = (bytes: Uint8Array): number | null => firstFrame(bytes)?.rateHz ?? null;

/**
 * How long the sound is, frame by frame, seconds; what is no frame is passed over. Null when there is none.
 * Source: ISO/IEC 11172-3 2.4.2.3 and 13818-3 (frame header; a frame has 144 times bit rate over sample rate bytes, half
 *   as many in MPEG 2, and one more if it is padded), from memory.
 */
export function mpegSeconds(bytes: Uint8Array): number | null {
  const first = firstFrame(bytes);
  if (first === null) return null;
  let frames = 0;
  for (let at = first.at; at + 3 < bytes.length; ) {
    const frame = mpegFrame(bytes, at);
    if (frame?.rateHz === first.rateHz && frame.bytes !== null) {
      frames += frame.frames;
      at += frame.bytes;
    } else at++;
  }
  return frames / first.rateHz;
}

function firstFrame(bytes: Uint8Array): { readonly at: number; readonly rateHz: number } | null {
  const tagged = lettersAt(bytes, 0, 3) === "ID3";
  const [a, b, c, d] = bytes.subarray(6, 10);
  let at = tagged ? 10 + ((a << 21) | (b << 14) | (c << 7) | d) : 0;
  while (at + 3 < bytes.length && !(bytes[at] === 0xff && bytes[at + 1] >= 0xe0)) at++;
  const frame = mpegFrame(bytes, at);
  return frame && { at, rateHz: frame.rateHz };
}

/** Of MPEG 1; 2 has half of its rates, 2.5 a quarter. */
const ratesHz = [44_100, 48_000, 32_000];
/** Of MPEG 1, and of 2 and 2.5; 0 is free. */
const kilobits = [
  [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320],
  [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160],
];

/** The frame whose header is at `at`; null when there is none. */
function mpegFrame(bytes: Uint8Array, at: number): MpegFrame | null {
  const version = (bytes[at + 1] >> 3) & 3;
  const rate = ratesHz[(bytes[at + 2] >> 2) & 3];
  if (bytes[at] !== 0xff || (bytes[at + 1] & 0xe6) !== 0xe2 || rate === undefined || version === 1)
    return null;
  const rateHz = version === 3 ? rate : version === 2 ? rate / 2 : rate / 4;
  const isFirst = version === 3;
  const bits = 1000 * (kilobits[isFirst ? 0 : 1][bytes[at + 2] >> 4] ?? 0);
  const padding = (bytes[at + 2] >> 1) & 1;
  const length = Math.floor(((isFirst ? 144 : 72) * bits) / rateHz) + padding;
  return { rateHz, frames: isFirst ? 1152 : 576, bytes: bits > 0 ? length : null };
}
