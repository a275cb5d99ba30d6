import { expect, test } from "vitest";
import { planSweep } from "../../../src/work/sweep/planSweep.js";
import { readWishes } from "../../../src/work/sweep/wishes.js";
import { simpleRig } from "../../rigs.js";

const steps = (path: string, count: number) => [
  { path, values: Array.from({ length: count }, (_, n) => -n / count) },
];

/** 2^53 is where whole numbers end to be exact (IEEE 754 double precision): beyond it places of a grid fall together. */
test("a grid that cannot be counted is refused, also for a sample of it", () => {
  const knobs = ["mixer.returnDb", "mixer.dryDb", "mixer.returnPan", "Echo.mix"];
  const request = { sample: 10, seed: 1, routings: ["parallel"], reference: null, tolerancePercent: null };
  const plan = (count: number) =>
    planSweep(
      simpleRig(),
      { ...request, draws: 20, tailSeconds: 0, groups: knobs.map((path) => steps(path, count)) },
      readWishes({ want: [], most: [], least: [] }),
      { frames: 8000 },
      { rateHz: 8000, clips: new Map() },
    );
  expect(() => plan(100_000)).toThrow(
    "100000 by 100000 by 100000 by 100000 steps are 1.0e+20 settings; up to 2^53, about 9.0e+15, can be told apart, in a sample too. Vary fewer knobs, or write fewer steps.",
  );
  expect(plan(9000).plan.sample).toBe(10);
});
