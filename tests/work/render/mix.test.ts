import { expect, test } from "vitest";
import { LagKernel, MixKernel, mixKey, scaled, silence, summed } from "../../../src/work/render/mix.js";
import { noise } from "../../signals.js";

const terms = (...pairs: [number, number][]) => pairs.map(([signal, gain]) => ({ signal, gain }));

test("sums join terms of one signal, in order, and drop what cancels", () => {
  expect(summed([terms([3, 1], [1, 0.5]), terms([1, 0.5])])).toEqual(terms([1, 1], [3, 1]));
  expect(summed([terms([2, 1]), scaled(terms([2, 1]), -1)])).toEqual(silence);
  expect(summed([terms([1, 1e-31], [2, -1e-29])])).toEqual(terms([2, -1e-29]));
  expect(mixKey(terms([1, 0.5], [3, 1]))).toBe("0.5*1+1*3");
});

test.each([1, 2, 3, 4, 5, 8, 9, 13])("a mix of %i inputs is their weighted sum, rounded once", (count) => {
  const frames = 300;
  const inputs = Array.from({ length: count }, (_, k) => noise({ seed: k + 1, frames }));
  const gains = inputs.map((_, k) => (k % 2 ? -1 : 1) / (k + 1));
  const output = new Float32Array(frames);
  new MixKernel(gains).process(inputs, [output], frames);
  for (let n = 0; n < frames; n++) {
    const exact = inputs.reduce((sum, x, k) => sum + gains[k] * x[n], 0);
    expect(Math.abs(output[n] - exact)).toBeLessThanOrEqual(Math.abs(exact) * 2 ** -24 + 1e-15);
  }
});

test("a lag is whole frames, whatever the blocks", () => {
  const x = noise({ seed: 4, frames: 100 });
  const lag = new LagKernel(7);
  const y = new Float32Array(100);
  for (let at = 0; at < 100; at += 9) {
    const frames = Math.min(9, 100 - at);
    lag.process([x.subarray(at, at + frames)], [y.subarray(at, at + frames)], frames);
  }
  expect(y.subarray(0, 7).every((v) => v === 0)).toBe(true);
  expect(y.subarray(7)).toEqual(x.subarray(0, 93));
});
