import { describe, expect, test } from "vitest";
import { besselJ0, likeness } from "../closedForms.js";
import { toneAmplitude } from "../dtft.js";
import { soundOf } from "../rig/pedals/runPedal.js";
import { noise, sine } from "../signals.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;

/** Amplitude modulation, closed form: A(1 - depth/2), and two sidebands of A depth/4, lfoHz either side. */
test.each([0.25, 0.6, 1])("sidebands of a tremolo of depth %f", (depth) => {
  const input = [sine({ frequencyHz: 1000, rateHz, lengthSeconds: 1, peakDbfs: -6.0206 })];
  const [out] = soundOf({ model: "tremolo", settings: { depth, lfoHz: 5 }, input, rateHz });
  expectWithin(toneAmplitude(out, 1000, rateHz), 0.5 * (1 - depth / 2), 1e-5);
  expectWithin(toneAmplitude(out, 995, rateHz), (0.5 * depth) / 4, 1e-5);
  expectWithin(toneAmplitude(out, 1005, rateHz), (0.5 * depth) / 4, 1e-5);
  expectWithin(toneAmplitude(out, 1010, rateHz), 0, 1e-5);
});

/** A triangle's harmonics are 8/(pi k)^2, k odd (Fourier): sidebands of A depth/4 times that. */
test("sidebands of a triangle", () => {
  const input = [sine({ frequencyHz: 1000, rateHz, lengthSeconds: 1 })];
  const [out] = soundOf({
    model: "tremolo",
    settings: { depth: 1, lfoHz: 5, wave: "triangle" },
    input,
    rateHz,
  });
  for (const k of [1, 3, 5]) {
    expectWithin(toneAmplitude(out, 1000 + 5 * k, rateHz), 2 / (Math.PI * k) ** 2, 1e-5);
  }
  expectWithin(toneAmplitude(out, 1010, rateHz), 0, 1e-5);
});

/** Gains 1 + m sin with an offset phi, one source: (1 + m^2/2 cos phi)/(1 + m^2/2); here m = depth/(2 - depth). */
test.each([
  [1, 90, 2 / 3],
  [1, 180, 1 / 3],
  [2 / 3, 180, 0.7778],
  [1, 0, 1],
])("likeness of the sides, depth %f, spread %f: %f", (depth, spreadDegrees, expected) => {
  const settings = { depth, spreadDegrees, lfoHz: 4 };
  const input = [sine({ frequencyHz: 500, rateHz, lengthSeconds: 1 })];
  const [left, right] = soundOf({ model: "tremolo", settings, input, outputs: 2, rateHz });
  expectWithin(likeness(left, right), expected, 5e-5);
});

describe("equal-power panner", () => {
  /** Angle (pi/4)(1 + m sin): the sides' likeness is J0(pi m/2), closed form. */
  test.each([
    [1, 0.472],
    [0.5, 0.8516],
  ])("likeness of the sides, depth %f: %f", (depth, expected) => {
    const settings = { law: "equal-power", depth, lfoHz: 4 };
    const input = [sine({ frequencyHz: 500, rateHz, lengthSeconds: 1 })];
    const [left, right] = soundOf({ model: "tremolo", settings, input, outputs: 2, rateHz });
    expectWithin(likeness(left, right), expected, 5e-5);
    expectWithin(likeness(left, right), besselJ0((Math.PI * depth) / 2), 1e-6);
  });

  /** W3C Web Audio equal-power pan: cos^2 + sin^2 = 1; cos(pi/4) at the centre, -3.0103 dB. */
  test("power is kept, the centre is 3.01 dB down a side", () => {
    const settings = { law: "equal-power", depth: 1, lfoHz: 4 };
    const input = [noise({ seed: 7, frames: 12_000 })];
    const [left, right] = soundOf({ model: "tremolo", settings, input, outputs: 2, rateHz });
    for (let n = 0; n < left.length; n++) {
      expect(Math.abs(left[n] ** 2 + right[n] ** 2 - input[0][n] ** 2)).toBeLessThan(1e-7);
    }
    expectWithin(20 * Math.log10(left[0] / input[0][0]), -3.0103, 1e-4, "dB");
    const leftmost = (0.75 * rateHz) / 4;
    expectWithin(right[leftmost], 0, 1e-7);
  });
});

/** Swings against each other add to nothing: (L + R)/2 = (1 - depth/2) in. Closed form. */
test("swing inverted: mono loses the tremolo", () => {
  const settings = { depth: 0.8, secondOutput: "inverted-wet", lfoHz: 6 };
  const input = [noise({ seed: 3, frames: 12_000 })];
  for (const wave of ["sine", "triangle"]) {
    const [left, right] = soundOf({
      model: "tremolo",
      settings: { ...settings, wave },
      input,
      outputs: 2,
      rateHz,
    });
    for (let n = 0; n < left.length; n++) {
      expect(Math.abs((left[n] + right[n]) / 2 - 0.6 * input[0][n])).toBeLessThan(1e-7);
    }
  }
});
