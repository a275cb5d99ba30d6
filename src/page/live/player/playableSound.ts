import type { SideGains } from "../engine/openMixer.js";
import type { PlayableChoice } from "./choiceStrip.js";
import { mostChannels } from "./sourceBank.js";

/** All choices on one clock: their channels side by side in as few buffers as may be. */
export interface PlayableSound {
  readonly rateHz: number;
  readonly frames: number;
  readonly channels: number;
  readonly buffers: readonly AudioBuffer[];
  readonly choices: readonly PlayableChoice[];
}

/** One choice as it was rendered. */
export interface PlayableTrack {
  readonly id: string;
  /** At least as long as the sound; what is longer is cut. */
  readonly channels: readonly Float32Array[];
  /** What each channel gives to the sides. */
  readonly gains: readonly SideGains[];
}

/** Copies tracks into buffers; the tracks' own memory is not needed any more. */
export function playableSound(
  tracks: readonly PlayableTrack[],
  frames: number,
  rateHz: number,
): PlayableSound {
  const all = tracks.flatMap(({ channels }) => channels);
  const buffers: AudioBuffer[] = [];
  for (let from = 0; from < all.length; from += mostChannels) {
    const part = all.slice(from, from + mostChannels);
    const options = { length: Math.max(1, frames), numberOfChannels: part.length, sampleRate: rateHz };
    const buffer = new AudioBuffer(options);
    part.forEach((samples, n) => {
      buffer.getChannelData(n).set(samples.subarray(0, frames));
    });
    buffers.push(buffer);
  }
  let channel = 0;
  const choices = tracks.map(({ id, gains }) => ({
    id,
    voices: gains.map((sides) => ({ channel: channel++, ...sides })),
  }));
  return { rateHz, frames, channels: all.length, buffers, choices };
}

/** The channels of one choice, in the buffers' own memory. */
export function channelsOf({ buffers, choices }: PlayableSound, id: string): readonly Float32Array[] {
  const voices = choices.find((choice) => choice.id === id)?.voices ?? [];
  return voices.map(({ channel }) =>
    buffers[Math.floor(channel / mostChannels)].getChannelData(channel % mostChannels),
  );
}
