import { expect, test } from "vitest";
import { before, cellFrames, cellsEitherWay } from "../../../src/sound/loops/peaks.js";
import { peakBounds } from "../../../src/sound/measure/peakBounds.js";
import { type Phase, peakInterpolator } from "../../../src/sound/measure/peakInterpolator.js";
import { expectWithin } from "../../within.js";

const rates = [8_000, 44_100, 48_000, 96_000];

/** Closed form: +-1 with the signs of the taps is the worst that samples up to 1 can do. The bound is reached. */
test.each(rates)("no samples beat the bound by size, at %i Hz", (rateHz) => {
  const phases = peakInterpolator(rateHz);
  const { nearGain, farGain, middles } = peakBounds(phases);
  const near = phases.map(({ taps }) => soundAt(taps, (j) => (isNear(j) ? Math.sign(taps[j]) : 0)));
  const far = phases.map(({ taps }) => soundAt(taps, (j) => (isNear(j) ? 0 : Math.sign(taps[j]))));
  expectWithin(Math.max(...near), nearGain, 1e-12);
  expectWithin(Math.max(...far), farGain, 1e-12);
  phases.forEach(({ taps }, p) => {
    const outer = soundAt(taps, (j) => (j < before - 3 || j > before + 4 ? Math.sign(taps[j]) : 0));
    expectWithin(outer, middles[p].outerGain, 1e-12);
    expect([...middles[p].taps]).toEqual([...taps.slice(before - 3, before + 5)]);
  });
});

/** A straight line is passed but for the slope error, which the gain of the larger of two samples covers. */
test.each(rates)("no line beats the bound, at %i Hz", (rateHz) => {
  const phases = peakInterpolator(rateHz);
  const { lineGain } = peakBounds(phases);
  expect(lineGain).toBeLessThan(1.001);
  for (const phase of phases) {
    for (const [start, end] of [
      [1, 1],
      [1, -1],
      [0.2, 1],
      [-1, 0.7],
    ]) {
      const value = soundAt(phase.taps, (j) => start + (end - start) * (j - before));
      expect(Math.abs(value)).toBeLessThanOrEqual(lineGain * Math.max(Math.abs(start), Math.abs(end)));
    }
  }
});

/**
 * By definition: the weight of a second difference is what the taps make of a sound that bends by 1 there alone and is
 * zero on the two nearest samples. The bounds are the largest sums of such weights, over all bends and by cell.
 */
test.each(rates)("no bends beat the bound, at %i Hz", (rateHz) => {
  const phases = peakInterpolator(rateHz);
  const { bendGain, bendGains } = peakBounds(phases);
  const weights = phases.map((phase) =>
    Array.from({ length: 62 }, (_, j) => Math.abs(bentValue(phase, j + 1))),
  );
  const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
  expectWithin(bendGain, Math.max(...weights.map(sum)), 1e-9);
  for (let cells = -cellsEitherWay; cells <= cellsEitherWay; cells++) {
    const sums = Array.from({ length: cellFrames }, (_, n) =>
      // The bend at tap j + 1 lies on frame n - before + j + 1; a cell's bends reach from frame -1 of it to frame 14.
      weights.map((all) =>
        sum(all.filter((_w, j) => Math.floor((n - before + j + 2) / cellFrames) === cells)),
      ),
    ).flat();
    expectWithin(bendGains[cells + cellsEitherWay], Math.max(...sums), 1e-9);
  }
});

const isNear = (j: number): boolean => j === before || j === before + 1;

const soundAt = (taps: Float64Array, x: (j: number) => number): number =>
  taps.reduce((sum, tap, j) => sum + tap * x(j), 0);

/** Value of the broken line that bends by 1 at tap `at`, is zero on the two nearest taps, and straight elsewhere. */
function bentValue({ taps }: Phase, at: number): number {
  if (at <= before) return soundAt(taps, (j) => Math.max(0, at - j));
  return soundAt(taps, (j) => Math.max(0, j - at));
}
