import { type Player, shortestLoopSeconds } from "../../contract/player.js";

/** Moves the start of the loop, keeping it before the end, and turns the loop on. */
export function setLoopFrom(player: Player, seconds: number): void {
  const latest = Math.max(0, player.lengthSeconds - shortestLoopSeconds);
  const from = Math.min(Math.max(0, seconds), latest);
  player.setLoop({ on: true, from, to: Math.max(player.loop.to, from + shortestLoopSeconds) });
}

/** Moves the end of the loop, keeping it behind the start, and turns the loop on. */
export function setLoopTo(player: Player, seconds: number): void {
  const to = Math.max(Math.min(player.lengthSeconds, seconds), shortestLoopSeconds);
  player.setLoop({ on: true, to, from: Math.min(player.loop.from, to - shortestLoopSeconds) });
}
