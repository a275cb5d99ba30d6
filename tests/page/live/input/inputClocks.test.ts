import { expect, test } from "vitest";
import { LossWatch } from "../../../../src/page/live/input/lossWatch.js";
import { StreamClock } from "../../../../src/page/live/input/streamClock.js";

const rateHz = 48_000;
const frames = 480;

test("pieces that are handed over late do not move the clock of a stream", () => {
  const clock = new StreamClock(rateHz);
  expect(clock.add(frames, 1010)).toBe(1010);
  expect(clock.add(frames, 1700)).toBe(1020);
  expect(clock.add(frames, 1700)).toBe(1030);
  // The first ones were late as well: now it is known.
  expect(clock.add(frames, 1035)).toBe(1035);
});

/** Pieces of 10 ms whose times jitter by up to 2 ms and drift by 100 ppm; from `from` on, `lost` seconds later. */
function lossIn(from: number, lost: number): number {
  const watch = new LossWatch(rateHz);
  let found = 0;
  for (let n = 0; n < 2000; n++) {
    const jitter = 0.002 * Math.abs(Math.sin(7.3 * n));
    found += watch.add(frames, 5 + 0.01 * n * 1.0001 + jitter + (n >= from ? lost : 0));
  }
  return found;
}

test("lost sound is found by times that stay late, and nothing by jitter or drift", () => {
  expect(lossIn(0, 0)).toBe(0);
  expect(lossIn(700, 0.01)).toBeCloseTo(0.01, 3);
  expect(lossIn(1203, 0.25)).toBeCloseTo(0.25, 3);
});
