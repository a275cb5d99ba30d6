import fc from "fast-check";
import { expect, test } from "vitest";
import { inTracks, type Upright } from "../../../src/rig/drawing/tracks.js";

const through = (from: number, to: number): Upright => ({ from, fromSide: "left", to, toSide: "right" });

test("a cable that keeps its level needs no track", () => {
  expect(inTracks([through(10, 10), through(40, 40)])).toEqual({ count: 0, steps: [[], []] });
});

/** Drawn by hand: the lower of two that go down turns first, the upper of two that go up. */
test("cables that do not have to cross do not", () => {
  expect(inTracks([through(0, 40), through(20, 60)]).steps).toEqual([
    [{ track: 1, to: 40 }],
    [{ track: 0, to: 60 }],
  ]);
  expect(inTracks([through(40, 0), through(60, 20)]).steps).toEqual([
    [{ track: 0, to: 0 }],
    [{ track: 1, to: 20 }],
  ]);
});

test("cables that are apart share a track", () => {
  expect(inTracks([through(0, 20), through(100, 120)]).count).toBe(1);
});

/** Neither can be left of the other: the one on the right would lie on the level that the other leaves for. */
test("two that change places go round each other, one of them on two tracks", () => {
  const { count, steps } = inTracks([through(0, 20), through(20, 0)]);
  expect(count).toBe(3);
  expect(steps.map((own) => own.length).sort()).toEqual([1, 2]);
  expect(steps.map((own) => own.at(-1)?.to)).toEqual([20, 0]);
});

/** Levels in steps of jacks, so that many meet: any permutation of them. */
test("no two cables lie on each other, however they change places", () => {
  const places = [0, 1, 2, 3, 4, 5, 6, 7];
  fc.assert(
    fc.property(fc.shuffledSubarray(places), fc.shuffledSubarray(places), (from, to) => {
      const uprights = from.slice(0, to.length).map((level, n) => through(18 * level, 18 * to[n]));
      const { steps, count } = inTracks(uprights);
      const runs = uprights.map((upright, n) => runsOf(upright, steps[n], count));
      for (const [n, own] of runs.entries())
        for (const other of runs.slice(n + 1))
          expect(own.filter((run) => other.some((one) => lie(run, one)))).toEqual([]);
    }),
    { seed: 1, numRuns: 500 },
  );
});

/** A straight piece: on a level (`y`) or a track (`x`), from where to where. */
interface Run {
  readonly on: string;
  readonly start: number;
  readonly end: number;
}

function runsOf(upright: Upright, steps: ReturnType<typeof inTracks>["steps"][number], count: number): Run[] {
  const run = (on: string, a: number, b: number): Run => ({ on, start: Math.min(a, b), end: Math.max(a, b) });
  const runs: Run[] = [];
  let [x, y] = [-1, upright.from];
  for (const { track, to } of steps) {
    runs.push(run(`y ${y}`, x, track), run(`x ${track}`, y, to));
    [x, y] = [track, to];
  }
  return [...runs, run(`y ${y}`, x, count)];
}

const lie = (a: Run, b: Run): boolean => a.on === b.on && a.start <= b.end && b.start <= a.end;
