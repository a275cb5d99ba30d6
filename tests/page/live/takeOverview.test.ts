import { expect, test } from "vitest";
import { overviewOf } from "../../../src/page/live/takeOverview.js";

test("peaks stand where they are in the whole length; behind the take there is silence", () => {
  const samples = new Float32Array(6000);
  samples[3000] = -0.8;
  samples[10] = 0.25;
  const peaks = overviewOf(samples, 12_000);
  expect(peaks[Math.floor((3000 / 12_000) * peaks.length)]).toBeCloseTo(0.8, 6);
  expect(peaks[Math.floor((10 / 12_000) * peaks.length)]).toBe(0.25);
  expect(peaks.subarray(peaks.length / 2).every((peak) => peak === 0)).toBe(true);
});

test("a sound shorter than its picture loses no peak", () => {
  const peaks = overviewOf(Float32Array.of(0.1, 0.9, 0.2), 3);
  expect(Math.max(...peaks)).toBeCloseTo(0.9, 6);
});
