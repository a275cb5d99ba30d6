import { expect, test } from "vitest";
import { foldDownLossDb } from "../../src/sound/measure/foldDown.js";
import { integratedLufs } from "../../src/sound/measure/loudness.js";
import { noise, sine } from "../signals.js";
import { mix } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;
const tone = { frequencyHz: 997, rateHz, lengthSeconds: 5, peakDbfs: -6 };

/**
 * Closed form: equal channels of correlation rho lose 10 log10(2 / (1 + rho)) when folded. Two sines of one
 * frequency, acos(rho) apart, keep their correlation through any filter.
 */
test.each([
  [1, 0],
  [0.9, 0.223],
  [0.7, 0.706],
  [0.5, 1.249],
  [0.3, 1.871],
  [0, 3.01],
  [-0.3, 4.559],
  [-0.5, 6.021],
  [-0.7, 8.239],
  [-0.9, 13.01],
  [-0.99, 23.01],
])("correlation %d loses %d LU in mono", (rho, expectedDb) => {
  const right = sine({ ...tone, phaseDegrees: (Math.acos(rho) * 180) / Math.PI });
  expectWithin(foldDownLossDb(sine(tone), right, rateHz), expectedDb, 0.01, "LU");
});

test("mono loses nothing, opposite polarity everything", () => {
  const left = noise({ seed: 1, frames: 96_000 });
  expectWithin(foldDownLossDb(left, left, rateHz), 0, 1e-9, "LU");
  expect(
    foldDownLossDb(
      left,
      left.map((x) => -x),
      rateHz,
    ),
  ).toBe(Number.POSITIVE_INFINITY);
  expect(foldDownLossDb(new Float32Array(96_000), new Float32Array(96_000), rateHz)).toBeNull();
});

/** Closed form: 3.01 for unrelated sides of equal level, and for one side alone (q = 0). */
test("unrelated sides, and one side alone, lose 3.01 LU", () => {
  const [left, right] = [2, 3].map((seed) => noise({ seed, frames: 10 * rateHz }));
  expectWithin(foldDownLossDb(left, right, rateHz), 3.01, 0.05, "LU");
  expectWithin(foldDownLossDb(left, new Float32Array(left.length), rateHz), 3.0103, 1e-4, "LU");
});

/** The definition itself: both loudnesses by BS.1770, the mono sum filtered for itself. */
test("it is the loudness of (L, R) less that of (m, m)", () => {
  const left = noise({ seed: 4, frames: 5 * rateHz });
  const right = mix(left, 0.4, noise({ seed: 5, frames: 5 * rateHz }), 0.8);
  const folded = mix(left, 0.5, right, 0.5);
  const before = integratedLufs([left, right], rateHz) ?? Number.NaN;
  const after = integratedLufs([folded, folded], rateHz) ?? Number.NaN;
  expectWithin(foldDownLossDb(left, right, rateHz), before - after, 1e-5, "LU");
});

/**
 * Where the mono sum is under the gate, the blocks that count for stereo are compared: 60 dB stay 60 dB, and faint
 * hiss behind the sound, under the gate itself, does not come into it.
 */
test("a mono sum under the absolute gate still has its loss", () => {
  const left = sine({ ...tone, peakDbfs: -20 });
  const right = left.map((x) => -x * 0.998);
  const expectedDb = 10 * Math.log10((2 * (1 + 0.998 ** 2)) / (1 - 0.998) ** 2);
  expectWithin(foldDownLossDb(left, right, rateHz), expectedDb, 0.01, "LU");
  const hiss = [6, 7].map((seed) => noise({ seed, frames: left.length, rms: 1e-4 }));
  const longer = [left, right].map((side, k) => Float32Array.from([...side, ...hiss[k]]));
  // Three blocks in 50 lie partly in the hiss; all of it would take off 4 LU and more.
  expectWithin(foldDownLossDb(longer[0], longer[1], rateHz), expectedDb, 0.5, "LU");
});
