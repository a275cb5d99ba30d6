import wavEncoder from "wav-encoder";
import { type Clip, framesOf } from "./clip.js";
import { Dither } from "./dither.js";
import { refuseTooLong, type WavBits } from "./wavHead.js";

/**
 * A short clip as a whole WAV file in memory, by the library `wav-encoder`: impulse responses, test tones, takes of
 * the demo. 16 bits are dithered, 24 rounded, 32 float. Long sound goes through `openWav`.
 *
 * The library dithers nothing, makes 0 of NaN and clips without a word, so that is looked after here.
 *
 * @param file  what messages call it
 * @throws UserError when it would not fit into 4 GiB; RangeError when a sample is not finite, or an integer file
 *   would have to clip it
 */
export function encodeWav(clip: Clip, bits: WavBits, file = "the WAV file"): Uint8Array {
  const frames = framesOf(clip);
  refuseTooLong(file, { rateHz: clip.rateHz, channels: clip.channels.length, bits }, frames);
  for (const samples of clip.channels) {
    const at = samples.findIndex((x) => !Number.isFinite(x) || (bits !== 32 && Math.abs(x) > 1));
    if (at >= 0) throw new RangeError(`encodeWav: sample ${at} is ${samples[at]}; ${bits} bits hold -1 to 1`);
  }
  const channelData = bits === 16 ? clip.channels.map(ditherFor16Bits) : clip.channels;
  const options = bits === 32 ? { float: true } : { bitDepth: bits, symmetric: true };
  return new Uint8Array(wavEncoder.encode.sync({ sampleRate: clip.rateHz, channelData }, options));
}

function ditherFor16Bits(samples: Float32Array, channel: number): Float32Array {
  const dither = new Dither(channel);
  return samples.map((x) => x + dither.nextLsb() / 32_768);
}
