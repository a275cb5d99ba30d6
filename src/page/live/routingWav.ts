import { PcmEncoder } from "../../sound/audio/encodePcm.js";
import { wavHead } from "../../sound/audio/wavHead.js";
import type { SideGains } from "./engine/openMixer.js";

/**
 * A choice as a 24-bit stereo WAV file, by the encoder that writes the files of the command line.
 *
 * @param channels  of the choice as they are played
 * @param voices    what each of them gives to the sides
 * @param gain      given to both sides
 */
export function routingWav(
  channels: readonly Float32Array[],
  voices: readonly SideGains[],
  { rateHz, frames, gain }: { rateHz: number; frames: number; gain: number },
): Blob {
  const format = { rateHz, channels: 2, bits: 24 } as const;
  const encoder = new PcmEncoder(format, frames);
  const bytes = new Uint8Array(frames * 6);
  const sides = mixedSides(channels, voices, frames);
  encoder.encode(sides, 0, frames, gain, bytes);
  return new Blob([new Uint8Array(wavHead(format, frames)), bytes], { type: "audio/wav" });
}

/** Left and right of a choice: its channels, each by what it gives to a side. */
export const mixedSides = (
  channels: readonly Float32Array[],
  voices: readonly SideGains[],
  frames: number,
): readonly Float32Array[] =>
  (["left", "right"] as const).map((side) =>
    mixed(
      channels,
      voices.map((voice) => voice[side]),
      frames,
    ),
  );

function mixed(channels: readonly Float32Array[], gains: readonly number[], frames: number): Float32Array {
  const used = channels.flatMap((samples, n) => (gains[n] === 0 ? [] : [{ samples, gain: gains[n] }]));
  if (used.length === 1 && used[0].gain === 1) return used[0].samples.subarray(0, frames);
  const sum = new Float32Array(frames);
  for (let n = 0; n < frames; n++) {
    let value = 0;
    for (const { samples, gain } of used) value += gain * samples[n];
    sum[n] = value;
  }
  return sum;
}
