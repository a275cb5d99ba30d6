import type { View } from "../view.js";

/** Shortest loop that can be set, seconds. ITU-R BS.1534-3 asks for half a second at least. */
const shortestLoopSeconds = 0.5;

/** Moves the start of the loop, keeping it before the end, and turns the loop on. */
export function setLoopFrom({ bench: { player } }: View, seconds: number): void {
  const latest = Math.max(0, player.lengthSeconds - shortestLoopSeconds);
  const from = Math.min(Math.max(0, seconds), latest);
  player.setLoop({ on: true, from, to: Math.max(player.loop.to, from + shortestLoopSeconds) });
}

/** Moves the end of the loop, keeping it behind the start, and turns the loop on. */
export function setLoopTo({ bench: { player } }: View, seconds: number): void {
  const to = Math.max(Math.min(player.lengthSeconds, seconds), shortestLoopSeconds);
  player.setLoop({ on: true, to, from: Math.min(player.loop.from, to - shortestLoopSeconds) });
}
