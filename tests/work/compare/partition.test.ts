import fc from "fast-check";
import { expect, test } from "vitest";
import { readRig } from "../../../src/node/rig/readRig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { partition } from "../../../src/work/compare/partition.js";
import { compile } from "../../../src/work/render/compile.js";
import { anyRig } from "../../rig/file/anyRig.js";

const options = { rateHz: 48_000, clips: new Map() };

test("each wiring is in one share, in order, and no share is empty", () => {
  fc.assert(
    fc.property(anyRig(4), fc.integer({ min: 1, max: 12 }), (rig, threads) => {
      const wirings = routingsOf(rig).flatMap(({ wiring }) => (wiring ? [wiring] : []));
      const shares = partition(wirings, threads, options);
      expect(shares.length).toBe(Math.min(threads, wirings.length));
      for (const members of shares) {
        expect(members.length).toBeGreaterThan(0);
        expect(members).toEqual([...members].sort((a, b) => a - b));
      }
      expect(shares.flat().sort((a, b) => a - b)).toEqual(wirings.map((_, n) => n));
    }),
    { numRuns: 60, seed: 12 },
  );
});

/** Ahead of the split the unit hears the take, as it does beside it: one tank serves both, if they are one thread's. */
test("wirings that share a reverb stay together", async () => {
  // Without loading: the tank loads a pickup and not a splitter, so that it would hear another sound.
  const rig = {
    ...(await readRig(new URL("../../../fixtures/rigs/ferry-road.yaml", import.meta.url).pathname)),
    leavesLoadingOut: true,
  };
  const wirings = routingsOf(rig).flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : []));
  const shares = partition(
    wirings.map(({ wiring }) => wiring),
    2,
    options,
  );
  const shareOf = (id: string) => shares.findIndex((members) => members.some((n) => wirings[n].id === id));
  expect(shareOf("unit-first")).toBe(shareOf("parallel"));
  const nodes = shares.map(
    (members) =>
      compile(
        members.map((n) => wirings[n].wiring),
        options,
      ).nodeCount,
  );
  expect(Math.max(...nodes) / Math.min(...nodes)).toBeLessThan(2);
});
