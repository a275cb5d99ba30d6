import { type Clip, framesOf } from "./clip.js";
import { PcmEncoder } from "./encodePcm.js";
import { refuseTooLong, type WavBits, wavHead } from "./wavHead.js";

/**
 * A short clip as a whole WAV file in memory: impulse responses, test tones, takes of the demo. 16 bits are dithered, 24
 * rounded, 32 float. Long sound goes through `openWav`.
 *
 * @param file  what messages call it
 * @throws UserError when it would not fit into 4 GiB; RangeError when a sample is not finite, or an integer file
 *   would have to clip it
 */
export function encodeWav(clip: Clip, bits: WavBits, file = "the WAV file"): Uint8Array {
  const frames = framesOf(clip);
  const format = { rateHz: clip.rateHz, channels: clip.channels.length, bits };
  refuseTooLong(file, format, frames);
  for (const samples of clip.channels) {
    const at = samples.findIndex((x) => !Number.isFinite(x) || (bits !== 32 && Math.abs(x) > 1));
    if (at >= 0) throw new RangeError(`encodeWav: sample ${at} is ${samples[at]}; ${bits} bits hold -1 to 1`);
  }
  const head = wavHead(format, frames);
  const soundBytes = (frames * format.channels * bits) / 8;
  const bytes = new Uint8Array(head.length + soundBytes + (soundBytes % 2));
  bytes.set(head);
  new PcmEncoder(format, frames).encode(clip.channels, 0, frames, 1, bytes.subarray(head.length));
  return bytes;
}
