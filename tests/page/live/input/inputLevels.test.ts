import { expect, test } from "vitest";
import { InputLevels } from "../../../../src/page/live/input/inputLevels.js";

const piece = (...samples: number[]) => [Float32Array.from(samples)];

test("a peak is shown for a tenth of a second, the highest until it is cleared", () => {
  const levels = new InputLevels(1, 100);
  levels.add(piece(0, -0.5, 0, 0, 0));
  expect(levels.now[0].peakDbfs).toBeCloseTo(-6.02, 2);
  levels.add(piece(0.1, 0, 0, 0, 0));
  levels.add(piece(0.1, 0, 0, 0, 0));
  expect(levels.now[0].peakDbfs).toBeCloseTo(-20, 5);
  expect(levels.now[0].highestDbfs).toBeCloseTo(-6.02, 2);
  levels.clearMarks();
  expect(levels.now[0]).toMatchObject({ highestDbfs: null, isClipped: false });
});

test("the clip light holds from full scale of 16 bits on, and not below", () => {
  const levels = new InputLevels(2, 100);
  levels.add([Float32Array.of(32_767 / 32_768, 0), Float32Array.of(32_766 / 32_768, 0)]);
  levels.add([new Float32Array(20), new Float32Array(20)]);
  expect(levels.now.map(({ isClipped }) => isClipped)).toEqual([true, false]);
  expect(levels.now[0].peakDbfs).toBeNull();
  levels.clearMarks();
  expect(levels.now[0].isClipped).toBe(false);
});
