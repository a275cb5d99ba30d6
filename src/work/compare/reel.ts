import type { Clip } from "../../sound/audio/clip.js";
import type { Cue } from "../../sound/audio/cuedWav.js";
import { secondsToFrames } from "../../sound/dsp/units.js";

/** Which bars of every choice are played. */
export interface ReelSpan {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/** Unless told otherwise: as long as a listener keeps one sound in mind with the next (common practice, no source). */
export const usualReel: ReelSpan = { fromSeconds: 0, toSeconds: 12 };

/** Longer ones are no comparison any more, and all of them are held in memory. */
export const mostReelSeconds = 120;

/** One choice, matched, from the first frame of the span on. */
export interface ReelPart {
  readonly label: string;
  readonly channels: readonly Float32Array[];
}

/** One file to play: the choices one after the other, and where each begins. */
export interface Reel {
  readonly clip: Clip;
  readonly cues: readonly Cue[];
}

const gapSeconds = 0.8;
const fadeSeconds = 0.01;

/** Frames of the span, none of them past the end. */
export function spanFrames({ fromSeconds, toSeconds }: ReelSpan, rateHz: number, frames: number) {
  const from = Math.min(frames, secondsToFrames(fromSeconds, rateHz));
  return { from, to: Math.min(frames, secondsToFrames(toSeconds, rateHz)) };
}

/** Joins the choices with a rest between them; where one is cut it is faded, so that no cut clicks. One channel plays on both sides. */
export function reelOf(parts: readonly ReelPart[], rateHz: number): Reel {
  const gap = secondsToFrames(gapSeconds, rateHz);
  const lengths = parts.map(({ channels }) => channels[0].length);
  const whole = lengths.reduce((sum, length) => sum + length + gap, 0) - gap;
  const sides = [new Float32Array(Math.max(0, whole)), new Float32Array(Math.max(0, whole))];
  let at = 0;
  const cues = parts.map(({ label, channels: [left, right = left] }): Cue => {
    const frame = at;
    for (const [n, channel] of [left, right].entries()) sides[n].set(faded(channel, rateHz), at);
    at += left.length + gap;
    return { frame, label };
  });
  return { clip: { rateHz, channels: sides }, cues };
}

function faded(samples: Float32Array, rateHz: number): Float32Array {
  const sound = samples.slice();
  const frames = Math.min(secondsToFrames(fadeSeconds, rateHz), Math.floor(sound.length / 2));
  for (let n = 0; n < frames; n++) {
    sound[n] *= n / frames;
    sound[sound.length - 1 - n] *= n / frames;
  }
  return sound;
}
