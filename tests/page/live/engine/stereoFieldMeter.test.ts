import { expect, test } from "vitest";
import { fieldSize, StereoFieldMeter } from "../../../../src/page/live/engine/stereoFieldMeter.js";

/** Cell that a constant pair of samples falls into; closed form: x = (R - L) / 2, y = (L + R) / 2. */
test.each([
  ["mid alone stands on the upright", 0.5, 0.5, 0, 0.5],
  ["opposite polarity lies level", 0.5, -0.5, -0.5, 0],
  ["left alone leans left", 0.6, 0, -0.3, 0.3],
  ["right alone leans right", 0, 0.6, 0.3, 0.3],
  ["what is over the edge counts at the edge", 3, 3, 0, 1],
])("%s", (_name, l, r, x, y) => {
  const meter = new StereoFieldMeter(1);
  meter.push(Float32Array.of(l), Float32Array.of(r), 1);
  const { size, cells } = meter.result();
  expect(size).toBe(fieldSize);
  const column = Math.min(size - 1, Math.floor(((x + 1) / 2) * size));
  const row = Math.min(size - 1, Math.floor(((1 - y) / 2) * size));
  expect(cells.indexOf(1)).toBe(row * size + column);
  expect(cells.filter((cell) => cell > 0)).toHaveLength(1);
});

test("cells are shares of the densest one's energy", () => {
  const meter = new StereoFieldMeter(1);
  meter.push(Float32Array.of(0.5, 0.25), Float32Array.of(0.5, 0.25), 2);
  expect([...meter.result().cells.filter((cell) => cell > 0)].sort()).toEqual([0.25, 1]);
});

test("silence has no densest cell", () => {
  const meter = new StereoFieldMeter(1);
  meter.push(new Float32Array(9), new Float32Array(9), 9);
  expect(meter.result().cells.every((cell) => cell === 0)).toBe(true);
});
