import { describe, expect, test } from "vitest";
import { gainAt, gainDbAt } from "../dtft.js";
import { soundOf } from "../rig/pedals/runPedal.js";
import { impulse } from "../signals.js";
import { expectWithin } from "../within.js";

/**
 * Dattorro, "Effect Design, Part 2", J. Audio Eng. Soc. 45(10), 1997: the "white" chorus (blend 0.7071, feed-forward 1,
 * feedback 0.7071, subtracted) is (b + z^-i)/(1 + b z^-i) with its swing stopped: an all-pass. Adding the feedback
 * instead of subtracting it would break this.
 */
describe("white chorus, swing stopped", () => {
  const b = Math.SQRT1_2;
  const settings = { delayMs: 9.07, depthMs: 0, feedback: b, mix: 1 / (1 + b) };

  test.each([44_100, 48_000])("is an all-pass at %i Hz", (rateHz) => {
    const [mixed] = soundOf({ model: "chorus", settings, input: [impulse(2 * rateHz)], rateHz });
    const response = mixed.map((x) => (x * b) / (1 - settings.mix));
    for (const frequencyHz of [20, 55.1, 110.3, 997, 5000, 12_345, 20_000]) {
      expectWithin(gainAt(response, frequencyHz, rateHz), 1, 1e-5);
    }
    expectWithin(
      response.reduce((sum, x) => sum + x * x, 0),
      1,
      1e-6,
    );
  });

  test("echoes are b, then (1 - b^2)(-b)^(n - 1)", () => {
    const [mixed] = soundOf({ model: "chorus", settings, input: [impulse(8000)], rateHz: 44_100 });
    for (let n = 0; n < 10; n++) {
      const expected = n === 0 ? b : (1 - b * b) * (-b) ** (n - 1);
      expectWithin((mixed[400 * n] * b) / (1 - settings.mix), expected, 1e-6);
    }
  });
});

/** Comb filter, closed form: minima at (2k + 1)/(2 tau), maxima at k/tau. The feedback form is the same paper's. */
describe("flanger, swing stopped", () => {
  const rateHz = 48_000;
  const response = (feedback: number, delayMs: number) =>
    soundOf({
      model: "flanger",
      settings: { delayMs, depthMs: 0, feedback, mix: 0.5 },
      input: [impulse(rateHz)],
      rateHz,
    })[0];

  test.each([
    [0.5, [1000, 3000, 5000, 7000, 9000], [2000, 4000, 6000]],
    [1, [500, 1500, 2500, 3500, 4500], [1000, 2000, 3000]],
    [2, [250, 750, 1250, 1750, 2250], [500, 1000, 1500]],
    [5, [100, 300, 500, 700, 900], [200, 400, 600]],
  ])("%f ms: notches and peaks", (delayMs, notchesHz, peaksHz) => {
    for (const feedback of [0, -Math.SQRT1_2, 0.5]) {
      const h = response(feedback, delayMs);
      for (const hz of notchesHz) expect(gainDbAt(h, hz, rateHz), `notch at ${hz} Hz`).toBeLessThan(-100);
      for (const hz of peaksHz) expectWithin(gainAt(h, hz, rateHz), 1 / (1 + feedback), 1e-4);
    }
  });

  test("a quarter of the way up, |H| = |cos(pi f tau)| without feedback", () => {
    const h = response(0, 1);
    for (const hz of [125, 250, 333, 700]) {
      expectWithin(gainAt(h, hz, rateHz), Math.abs(Math.cos((Math.PI * hz) / 1000)), 1e-6);
    }
  });
});
