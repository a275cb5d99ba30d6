import { describe, expect, test } from "vitest";
import { dtft, gainAt, gainDbAt } from "../dtft.js";
import { soundOf, wetOf } from "../rig/pedals/runPedal.js";
import { impulse } from "../signals.js";
import { expectWithin } from "../within.js";

const centreHz = 600;

/**
 * Notches of N first-order all-passes beside the dry sound, k = 1 .. N/2:
 * tan(pi f/rate) = tan(pi corner/rate) tan((2k - 1) pi/(2N)).
 * Source: J. O. Smith, Physical Audio Signal Processing, "Phasing with first-order allpass filters"; closed form.
 */
describe.each([44_100, 48_000, 96_000])("phaser at rest, %i Hz", (rateHz) => {
  const at = { sweepOctaves: 0, centreHz };
  const responseOf = (stages: number, feedback = 0) =>
    soundOf({ model: "phaser", settings: { ...at, stages, feedback }, input: [impulse(rateHz)], rateHz })[0];

  test.each([2, 3, 4, 6, 8, 12])("%i stages: every notch in its place", (stages) => {
    const response = responseOf(stages);
    for (let k = 1; k <= Math.floor(stages / 2); k++) {
      const turn = Math.tan((Math.PI * centreHz) / rateHz) * Math.tan(((2 * k - 1) * Math.PI) / (2 * stages));
      const notchHz = (rateHz / Math.PI) * Math.atan(turn);
      expect(gainDbAt(response, notchHz, rateHz), `notch ${k} at ${notchHz} Hz`).toBeLessThan(-90);
      expect(gainDbAt(response, notchHz * 1.01, rateHz)).toBeGreaterThan(-50);
    }
    expectWithin(gainDbAt(response, 0, rateHz), 0, 1e-4, "dB at 0 Hz");
  });

  test("each stage turns by a quarter circle at the corner, and keeps every level", () => {
    const settings = { ...at, stages: 3 };
    const [wet] = wetOf({ model: "phaser", settings, input: [impulse(rateHz)], rateHz });
    const [re, im] = dtft(wet, centreHz, rateHz);
    expectWithin(Math.atan2(im, re), -1.5 * Math.PI + 2 * Math.PI, 1e-4, "radians");
    for (const hz of [50, 600, 5000, 20_000]) expectWithin(gainAt(wet, hz, rateHz), 1, 1e-5);
  });

  /** Feedback f about an all-pass A with one frame of delay, closed form: A/(1 - f z^-1 A). */
  test("feedback sharpens, as its closed form says", () => {
    const stages = 4;
    const settings = { ...at, stages, feedback: 0.7 };
    const [wet] = wetOf({ model: "phaser", settings, input: [impulse(rateHz)], rateHz });
    for (const hz of [100, 250, 600, 1450, 5000]) {
      const ratio = Math.tan((Math.PI * hz) / rateHz) / Math.tan((Math.PI * centreHz) / rateHz);
      const phase = -2 * stages * Math.atan(ratio) - (2 * Math.PI * hz) / rateHz;
      const expected = 1 / Math.hypot(1 - 0.7 * Math.cos(phase), 0.7 * Math.sin(phase));
      expectWithin(gainAt(wet, hz, rateHz), expected, 1e-4);
    }
  });
});
