import type { Player } from "../../contract/bench.js";
import type { PlayableSound } from "./playableSound.js";
import type { Loop } from "./playback.js";

/** Shorter loops are a buzz. ITU-R BS.1534-3 asks for half a second. */
export const shortestLoopSeconds = 0.5;

/** The loop that comes nearest to what was asked for: inside the sound, and not too short. */
export function withinLength({ on, from, to }: Player["loop"], lengthSeconds: number): Player["loop"] {
  const end = Math.min(lengthSeconds, Math.max(to, shortestLoopSeconds));
  return { on, from: Math.max(0, Math.min(from, end - shortestLoopSeconds)), to: end };
}

/** The same in whole frames; null when there is nothing in it. */
export function inFrames({ from, to }: Player["loop"], { rateHz, frames }: PlayableSound): Loop | null {
  const loop = { from: Math.round(from * rateHz), to: Math.min(frames, Math.round(to * rateHz)) };
  return loop.to > loop.from ? loop : null;
}
