import { expect, test } from "vitest";
import { shortestLoopSeconds } from "../../../../src/page/contract/player.js";
import { inFrames, withinLength } from "../../../../src/page/live/player/loopRange.js";

const loop = (from: number, to: number) => ({ on: true, from, to });

test.each([
  ["inside: as asked", loop(2, 5), loop(2, 5)],
  ["beyond both ends", loop(-3, 99), loop(0, 10)],
  ["too short", loop(4, 4.1), loop(4.1 - shortestLoopSeconds, 4.1)],
  ["turned round", loop(8, 3), loop(3 - shortestLoopSeconds, 3)],
  ["at the very beginning", loop(0, 0), loop(0, shortestLoopSeconds)],
])("%s", (_name, asked, given) => {
  expect(withinLength(asked, 10)).toEqual(given);
});

test("in frames, never past the end, and none where there is nothing", () => {
  const sound = { rateHz: 44_100, frames: 44_100, channels: 1, buffers: [], choices: [] };
  expect(inFrames(loop(0.25, 2), sound)).toEqual({ from: 11_025, to: 44_100 });
  expect(inFrames(loop(3, 4), sound)).toBeNull();
});
