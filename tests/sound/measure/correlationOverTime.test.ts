import { expect, test } from "vitest";
import { correlationOverTime } from "../../../src/sound/measure/correlationOverTime.js";
import { noise, sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

const rateHz = 8_000;

/** By hand: 2 s mono, then 2 s of opposite polarity. 37 windows: 17 at 1, three across the seam, 17 at -1. */
test("windows follow the sound", () => {
  const left = sine({ frequencyHz: 1000, rateHz, lengthSeconds: 4 });
  const right = left.map((x, n) => (n < 2 * rateHz ? x : -x));
  const reading = correlationOverTime(left, right, rateHz);
  const values = reading?.values.map((value) => Math.round(100 * (value ?? Number.NaN)) / 100);
  expect(values).toEqual([...Array(17).fill(1), 0.5, 0, -0.5, ...Array(17).fill(-1)]);
  expectWithin(reading?.median ?? null, 0, 1e-6);
  expectWithin(reading?.percentile5 ?? null, -1, 1e-6);
  expectWithin(reading?.shareBelowZero ?? null, 18.5 / 37, 0.5 / 37 + 1e-9);
  expect(reading?.hopSeconds).toBe(0.1);
});

test("windows over 60 dB below the loudest are left out", () => {
  const loud = noise({ seed: 1, frames: 2 * rateHz, rms: 0.1 });
  const left = Float32Array.from({ length: 4 * rateHz }, (_, n) =>
    n < loud.length ? loud[n] : loud[n - loud.length] * 5e-4,
  );
  const kept = left.map((x, n) => (n < loud.length ? x : -3 * x));
  const dropped = left.map((x, n) => (n < loud.length ? x : -x));
  expect(correlationOverTime(left, kept, rateHz)?.values.at(-1)).toBeCloseTo(-1);
  expect(correlationOverTime(left, dropped, rateHz)?.values.at(-1)).toBeNull();
  expect(correlationOverTime(left, dropped, rateHz)?.percentile5).toBeCloseTo(1);
});

test("no window, no reading", () => {
  const sound = noise({ seed: 2, frames: 3199 });
  expect(correlationOverTime(sound, sound, rateHz)).toBeNull();
  expect(correlationOverTime(noise({ seed: 3, frames: 9000 }), new Float32Array(9000), rateHz)).toBeNull();
});
