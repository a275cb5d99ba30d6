import { describe, expect, test } from "vitest";
import { FractionalDelay } from "../../src/sound/dsp/fractionalDelay.js";
import { gainDbAt } from "../dtft.js";
import { runKernel, wetOf } from "../rig/pedals/runPedal.js";
import { impulse } from "../signals.js";
import { expectWithin } from "../within.js";

const shares = [0.1, 0.2, 0.25, 0.3, 0.4];

/**
 * Loss of a Lagrange interpolator of order N half-way between frames, dB at 0.1, 0.2, 0.25, 0.3 and 0.4 of the rate.
 * Source: J. O. Smith, Physical Audio Signal Processing, "Lagrange interpolation"; the figures are the closed form
 * h[n] = product (D - k)/(n - k) worked out elsewhere, to the decimals shown. N = 1 is |cos(omega/2)|.
 */
const losses: Readonly<Record<number, readonly number[]>> = {
  1: [-0.436, -1.841, -3.01, -4.616, -10.2],
  3: [-0.031, -0.457, -1.072, -2.157, -6.96],
  5: [-0.0025, -0.131, -0.444, -1.164, -5.295],
  7: [-0.0002, -0.04, -0.195, -0.667, -4.222],
};

describe("interpolation half-way between frames", () => {
  test.each([1, 3, 5, 7])("fixed delay, order %i", (order) => {
    const response = runKernel(new FractionalDelay(order / 2), [impulse(64)], 1, 64)[0];
    shares.forEach((share, k) => {
      expectWithin(gainDbAt(response, share, 1), losses[order][k], 0.006, `dB at ${share} of the rate`);
    });
  });

  test.each([
    ["linear", 1],
    ["cubic", 3],
  ] as const)("modulated delay at rest, %s", (interpolation, order) => {
    const settings = { delayMs: 240.5 / 48, depthMs: 0 };
    const [response] = wetOf({ model: "chorus", settings, input: [impulse(512)], interpolation });
    shares.forEach((share, k) => {
      expectWithin(gainDbAt(response, share, 1), losses[order][k], 0.006, `dB at ${share} of the rate`);
    });
  });
});

/** W3C Web Audio DelayNode, as its implementations read: 100.5 frames late is half of each neighbour. */
test("linear reads halve between neighbours", () => {
  const settings = { delayMs: 100.5 / 48, depthMs: 0 };
  const [wet] = wetOf({ model: "chorus", settings, input: [impulse(256)], interpolation: "linear" });
  expectWithin(wet[100], 0.5, 1e-6);
  expectWithin(wet[101], 0.5, 1e-6);
  expect(wet.filter((x) => Math.abs(x) > 1e-6).length).toBe(2);
});
