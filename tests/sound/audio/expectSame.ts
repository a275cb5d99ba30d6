import { expect } from "vitest";

/** Equal to the bit; quicker than the matcher on long arrays. */
export function expectSame(actual: Float32Array, expected: Float32Array): void {
  expect(actual.length).toBe(expected.length);
  expect(actual.findIndex((x, n) => x !== expected[n])).toBe(-1);
}
