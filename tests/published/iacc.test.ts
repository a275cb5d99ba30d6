import { expect, test } from "vitest";
import { iacc } from "../../src/sound/measure/iacc.js";
import { noise } from "../signals.js";
import { delayed, mix } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;
const white = (seed: number) => noise({ seed, frames: 2 * rateHz });

/** ISO 3382-1:2009, Annex B: the modulus is taken, so opposite polarity gives 1 like mono does. */
test("mono and opposite polarity give 1", () => {
  expectWithin(iacc(white(1), white(1), rateHz), 1, 1e-9);
  expectWithin(
    iacc(
      white(1),
      white(1).map((x) => -x),
      rateHz,
    ),
    1,
    1e-9,
  );
});

/** Closed form: a copy later by up to 1 ms has its whole energy at that lag; beyond, white noise has none. */
test.each([
  [0.5, 1, 0.001],
  [1, 1, 0.001],
  [-0.75, 1, 0.001],
  [1.1, 0, 0.02],
  [-3, 0, 0.02],
])("a copy %d ms late gives %d", (delayMs, expected, tolerance) => {
  const frames = Math.round((Math.abs(delayMs) * rateHz) / 1000);
  const [early, late] = [white(2), delayed(white(2), frames)];
  expectWithin(delayMs > 0 ? iacc(early, late, rateHz) : iacc(late, early, rateHz), expected, tolerance);
});

/** The definition of Annex B, summed term by term. */
test.each([8_000, 44_100, 48_000])("it is the largest of the sums over all lags, at %d Hz", (anyRateHz) => {
  const longest = Math.floor(anyRateHz / 1000);
  const left = noise({ seed: 3, frames: 60_011 });
  const right = mix(delayed(left, longest), -0.5, noise({ seed: 4, frames: 60_011 }), 0.1);
  let largest = 0;
  for (let lag = -longest; lag <= longest; lag++) {
    let sum = 0;
    for (let n = Math.max(0, -lag); n < left.length - Math.max(0, lag); n++) sum += left[n] * right[n + lag];
    largest = Math.max(largest, Math.abs(sum));
  }
  const energy = (x: Float32Array) => x.reduce((sum, value) => sum + value * value, 0);
  const expected = largest / Math.sqrt(energy(left) * energy(right));
  expectWithin(iacc(left, right, anyRateHz), expected, 2e-6);
});

test("silence has none", () => {
  expect(iacc(white(1), new Float32Array(2 * rateHz), rateHz)).toBeNull();
});
