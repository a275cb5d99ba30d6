import { expect, test } from "vitest";
import { loopSamples } from "../../../../src/page/live/player/loopSeam.js";
import { sine } from "../../../signals.js";

const rateHz = 48_000;
const tone = sine({ frequencyHz: 440, rateHz, lengthSeconds: 1 });

/** The closed form of a linear crossfade: its ends lie one step short of either sound. */
test("the end is faded over into what stands ahead of the beginning; all else is kept", () => {
  const loop = loopSamples(tone, 1000, 9000, 480);
  expect(loop).toHaveLength(8000);
  expect(loop.slice(0, 7520)).toEqual(tone.slice(1000, 8520));
  for (const n of [0, 100, 479]) {
    const share = (n + 1) / 481;
    const expected = (1 - share) * tone[8520 + n] + share * tone[520 + n];
    expect(loop[7520 + n]).toBeCloseTo(expected, 6);
  }
});

/** A 440 Hz sine steps by at most 2 sin(pi 440 / 48000); the fade adds at most 2 / 481 a frame. */
test("round the seam there is no step", () => {
  const loop = loopSamples(tone, 1234, 7823, 480);
  const twice = [...loop, ...loop];
  const largest = Math.max(...twice.slice(1).map((x, n) => Math.abs(x - twice[n])));
  expect(largest).toBeLessThan(2 * Math.sin((Math.PI * 440) / rateHz) + 2 / 481);
  const bare = [...tone.slice(1234, 7823), tone[1234]];
  expect(Math.abs(bare.at(-1)! - bare.at(-2)!)).toBeGreaterThan(0.2);
});

test("ahead of the beginning of the sound there is silence", () => {
  const loop = loopSamples(new Float32Array(100).fill(1), 0, 100, 10);
  expect(loop[89]).toBe(1);
  expect(loop[99]).toBeCloseTo(1 / 11, 6);
});

test("a loop shorter than its fade is all fade", () => {
  expect(loopSamples(tone, 5000, 5004, 480)).toHaveLength(4);
});
