import fc from "fast-check";
import { expect, test } from "vitest";
import { leastStretch, type Stretch } from "../../../src/rig/drawing/leastStretch.js";

const anyStretches = (points: number): fc.Arbitrary<Stretch[]> =>
  fc.array(
    fc
      .tuple(
        fc.integer({ min: 0, max: points - 1 }),
        fc.integer({ min: 0, max: points - 1 }),
        fc.integer({ min: -1, max: 2 }),
        fc.integer({ min: 0, max: 3 }),
      )
      .filter(([a, b]) => a !== b)
      .map(([a, b, least, weight]) => ({ from: Math.min(a, b), to: Math.max(a, b), least, weight })),
    { minLength: 1, maxLength: 8 },
  );

const cost = (places: ArrayLike<number>, stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, { from, to, weight }) => sum + weight * (places[to] - places[from]), 0);
const holds = (places: ArrayLike<number>, stretches: readonly Stretch[]): boolean =>
  stretches.every(({ from, to, least }) => places[to] - places[from] >= least);

/** All whole places of 4 points from 0 to 6; the optimum lies at whole numbers, for the matrix is totally unimodular. */
function* everyPlacing(): Generator<readonly number[]> {
  for (let n = 0; n < 7 ** 4; n++)
    yield [n % 7, Math.floor(n / 7) % 7, Math.floor(n / 49) % 7, Math.floor(n / 343)];
}

/** Closed form: the best of all placings, tried one by one. */
test("no placing of few points costs less", () => {
  fc.assert(
    fc.property(anyStretches(4), (stretches) => {
      const places = leastStretch(4, stretches);
      expect(holds(places, stretches)).toBe(true);
      let best = Number.POSITIVE_INFINITY;
      for (const placing of everyPlacing())
        if (holds(placing, stretches)) best = Math.min(best, cost(placing, stretches));
      expect(cost(places, stretches)).toBe(best);
    }),
    { seed: 1, numRuns: 300 },
  );
});

/** A law of linear programmes: at an optimum no group of points can move as one and gain. */
test("many points hold their stretches, and none gains by a step", () => {
  fc.assert(
    fc.property(fc.array(anyStretches(40), { minLength: 20, maxLength: 20 }), (lists) => {
      const stretches = lists.flat();
      const places = leastStretch(40, stretches);
      expect(holds(places, stretches)).toBe(true);
      for (let point = 0; point < 40; point++)
        for (const step of [-1, 1]) {
          const moved = Array.from(places, (place, n) => place + (n === point ? step : 0));
          if (holds(moved, stretches))
            expect(cost(moved, stretches)).toBeGreaterThanOrEqual(cost(places, stretches));
        }
    }),
    { seed: 1, numRuns: 50 },
  );
});
