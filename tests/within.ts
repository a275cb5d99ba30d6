import { expect } from "vitest";

/** Fails with both figures and the unit when `actual` is further than `tolerance` from `expected`. */
export function expectWithin(actual: number | null, expected: number, tolerance: number, unit = ""): void {
  const off = actual === null ? Number.POSITIVE_INFINITY : Math.abs(actual - expected);
  expect(off <= tolerance, `${actual} ${unit} is not within ${tolerance} of ${expected}`).toBe(true);
}
