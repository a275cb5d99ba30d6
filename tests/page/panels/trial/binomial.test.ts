import { expect, test } from "vitest";
import { atLeast, exactInterval } from "../../../../src/page/panels/trial/binomial.js";
import { expectWithin } from "../../../within.js";

/**
 * Exact one-sided probabilities of k or more of n by guessing, as tables of the binomial distribution (n, 0.5) give
 * them to four digits: sum of C(n, j) / 2^n, whole numbers over a power of two.
 */
test.each([
  [5, 5, 0.03125],
  [7, 7, 0.0078],
  [7, 8, 0.0352],
  [9, 10, 0.0107],
  [10, 12, 0.0193],
  [12, 15, 0.0176],
  [12, 16, 0.0384],
  [15, 20, 0.0207],
  [17, 24, 0.032],
  [18, 25, 0.0216],
  [20, 30, 0.0494],
  [26, 40, 0.0403],
  [32, 50, 0.0325],
  [59, 100, 0.0443],
])("%i of %i by guessing: %f", (least, trials, probability) => {
  expectWithin(atLeast(least, trials), probability, 0.00005, "probability");
});

/** The least count that comes by guessing in at most 5 % (1 %) of all runs, from the same tables. */
test.each([
  [5, 5, null],
  [6, 6, null],
  [8, 7, 8],
  [10, 9, 10],
  [12, 10, 11],
  [16, 12, 14],
  [20, 15, 16],
  [30, 20, 22],
  [50, 32, 34],
  [100, 59, 63],
])("%i trials: %i for 0.05, %s for 0.01", (trials, at5, at1) => {
  const counts = Array.from({ length: trials + 1 }, (_, k) => k);
  const leastFor = (limit: number) => counts.find((k) => atLeast(k, trials) <= limit) ?? null;
  expect(leastFor(0.05)).toBe(at5);
  expect(leastFor(0.01)).toBe(at1);
});

test("certain, impossible, and all cases together", () => {
  expect(atLeast(0, 12)).toBe(1);
  expectWithin(atLeast(12, 12), 1 / 4096, 1e-15);
  expectWithin(atLeast(1, 10, 0.3), 1 - 0.7 ** 10, 1e-13);
  expect(atLeast(3, 10, 0)).toBe(0);
  expect(atLeast(3, 10, 1)).toBe(1);
});

/** Independent implementation: scipy 1.17.1, binomtest(k, n).proportion_ci(0.95, "exact"). */
test.each([
  [7, 10, 0.3475471499399921, 0.9332604888222655],
  [3, 20, 0.03207093718554477, 0.37892682654529564],
  [12, 16, 0.4762291801038724, 0.9273379617471178],
  [50, 100, 0.39832112950330095, 0.6016788704966991],
  [150, 200, 0.6840371666702043, 0.8083928303774427],
])("interval of %i in %i", (successes, trials, low, high) => {
  const interval = exactInterval(successes, trials);
  expectWithin(interval.low, low, 1e-10);
  expectWithin(interval.high, high, 1e-10);
});

/** Closed form at the ends: all of n gives ((1 - level) / 2)^(1/n) to 1, none the mirror image. */
test.each([1, 4, 10, 33])("interval at the ends, %i trials", (trials) => {
  const edge = 0.025 ** (1 / trials);
  expectWithin(exactInterval(trials, trials).low, edge, 1e-12);
  expect(exactInterval(trials, trials).high).toBe(1);
  expectWithin(exactInterval(0, trials).high, 1 - edge, 1e-12);
  expect(exactInterval(0, trials).low).toBe(0);
});
