import { expect, test } from "vitest";
import { straighten, type Tie } from "../../../src/rig/drawing/straighten.js";

const tie = (from: number, to: number, rest: Partial<Tie> = {}): Tie => ({
  from,
  fromY: 0,
  to,
  toY: 0,
  weight: 1,
  channel: 0,
  ...rest,
});
const straightened = (
  tops: readonly number[],
  ...rest: [readonly Tie[], Parameters<typeof straighten>[2]]
) => {
  const moved = Float64Array.from(tops);
  straighten(moved, ...rest);
  return [...moved];
};

/** Drawn by hand: two steps down, from 0 to 20 to 50, are one; the outer ones are kept apart. */
test("a cable that goes down in two steps goes down in one", () => {
  const ties = [tie(0, 1), tie(1, 2, { channel: 1 })];
  expect(straightened([0, 20, 50], ties, [{ from: 0, to: 2, least: 50 }])).toEqual([0, 0, 50]);
});

/** Points 0 and 1 are level, 2 lies lower and cannot rise, for 3 lies above it. */
test("what hangs together moves together, and only where there is room", () => {
  const ties = [tie(0, 1), tie(1, 2, { channel: 1 })];
  const under3 = { from: 3, to: 2, least: 20 };
  expect(straightened([0, 0, 20, 0], ties, [under3])).toEqual([20, 20, 20, 0]);
  const over4 = { from: 0, to: 4, least: 40 };
  expect(straightened([0, 0, 20, 0, 40], ties, [under3, over4])).toEqual([0, 0, 20, 0, 40]);
});

/**
 * Drawn by hand: 0 feeds 2 by its upper jack, 1 feeds 2 by its lower one and 3 by its upper one. Were 2 level with 1, the
 * cable to 2 would arrive on the level that the one to 3 leaves, and the other way round.
 */
test("no bend is saved by making two cables change places", () => {
  const tops = [0, 100, 80, 0];
  const held = [
    { from: 0, to: 1, least: 100 },
    { from: 3, to: 2, least: 80 },
  ];
  const both = [tie(0, 2), tie(1, 2, { fromY: 18, toY: 18 })];
  expect(straightened(tops, both, held)).toEqual([0, 100, 100, 0]);
  expect(straightened(tops, [...both, tie(1, 3)], held)).toEqual(tops);
});
