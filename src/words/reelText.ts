import type { Reel } from "../work/compare/reel.js";

/** When each choice begins, a line each: `0:12.8  Reverb first`, as under a video. */
export function reelText({ clip, cues }: Reel): string {
  const lines = cues.map(({ frame, label }) => `${clock(frame / clip.rateHz)}  ${label}`);
  return `${lines.join("\n")}\n`;
}

function clock(seconds: number): string {
  const tenths = Math.round(10 * seconds);
  const minutes = Math.floor(tenths / 600);
  return `${minutes}:${((tenths % 600) / 10).toFixed(1).padStart(4, "0")}`;
}
