import { type Player, shortestLoopSeconds } from "../../contract/player.js";
import type { PlayableSound } from "./playableSound.js";
import type { LoopFrames } from "./playback.js";

/** The loop that comes nearest to what was asked for: inside the sound, and not too short. */
export function withinLength({ on, from, to }: Player["loop"], lengthSeconds: number): Player["loop"] {
  const end = Math.min(lengthSeconds, Math.max(to, shortestLoopSeconds));
  return { on, from: Math.max(0, Math.min(from, end - shortestLoopSeconds)), to: end };
}

/** The same in whole frames; null when there is nothing in it. */
export function inFrames({ from, to }: Player["loop"], { rateHz, frames }: PlayableSound): LoopFrames | null {
  const loop = { from: Math.round(from * rateHz), to: Math.min(frames, Math.round(to * rateHz)) };
  return loop.to > loop.from ? loop : null;
}
