import { describe, expect, test } from "vitest";
import { besselJ0, likeness } from "../closedForms.js";
import { soundOf, wetOf } from "../rig/pedals/runPedal.js";
import { sine } from "../signals.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;

/**
 * Pitch of a tone read from a delay that swings by +-A as a sine: 1 +- 2 pi f A (Dattorro, "Effect Design, Part 2",
 * J. Audio Eng. Soc. 45(10), 1997, section 4.4.2); the cents are arithmetic from that, to two decimals.
 * Periods of 2 ms may miss the extreme by half their length, 0.05 cents at 6 Hz.
 */
describe("pitch of the vibrato", () => {
  test.each([
    [1, 1, 10.84, -10.91],
    [1, 5, 53.55, -55.26],
    [1, 6, 64.07, -66.53],
    [2, 1, 21.62, -21.89],
    [3, 0.5, 16.24, -16.39],
    [3, 0.8, 25.91, -26.31],
    [5, 0.5, 26.98, -27.41],
  ])("swing %f ms at %f Hz: %f and %f cents", (depthMs, lfoHz, upCents, downCents) => {
    for (const interpolation of ["cubic", "linear"] as const) {
      const input = [sine({ frequencyHz: 500, rateHz, lengthSeconds: 1 / lfoHz + 0.1 })];
      const [wet] = wetOf({ model: "vibrato", settings: { depthMs, lfoHz }, input, rateHz, interpolation });
      const cents = periodsOf(wet.subarray(1000)).map((frames) => 1200 * Math.log2(rateHz / frames / 500));
      expectWithin(Math.max(...cents), upCents, 0.05, "cents up");
      expectWithin(Math.min(...cents), downCents, 0.05, "cents down");
    }
  });

  test("the chorus swings by the same law: 7.94 ms at 0.15 Hz", () => {
    const input = [sine({ frequencyHz: 500, rateHz, lengthSeconds: 7 })];
    const settings = { delayMs: 9.07, depthMs: 7.94, lfoHz: 0.15 };
    const [wet] = wetOf({ model: "chorus", settings, input, rateHz });
    const cents = periodsOf(wet.subarray(1000)).map((frames) => 1200 * Math.log2(rateHz / frames / 500));
    expectWithin(Math.max(...cents), 12.9, 0.05, "cents up");
    expectWithin(Math.min(...cents), -13.0, 0.05, "cents down");
  });
});

/** Closed form: the wet sound of a tone is the tone at t - D(t). Third-order reads leave 1e-5 of error at 1 kHz. */
test("a vibrated tone is the tone at t - D(t), at every rate", () => {
  for (const rate of [44_100, 48_000, 96_000, 69_313]) {
    const [frequencyHz, depthMs, lfoHz] = [1000, 1.8, 3.3];
    const input = [sine({ frequencyHz, rateHz: rate, lengthSeconds: 1 })];
    const [wet] = wetOf({
      model: "vibrato",
      settings: { depthMs, lfoHz, phaseDegrees: 30 },
      input,
      rateHz: rate,
    });
    let worst = 0;
    for (let n = Math.ceil(0.01 * rate); n < wet.length; n++) {
      const seconds = n / rate;
      const delayMs = depthMs + 0.15 + depthMs * Math.sin(2 * Math.PI * lfoHz * seconds + Math.PI / 6);
      const expected = Math.sin(2 * Math.PI * frequencyHz * (seconds - delayMs / 1000));
      worst = Math.max(worst, Math.abs(wet[n] - expected));
    }
    expect(worst, `at ${rate} Hz`).toBeLessThan(2e-5);
  }
});

/** Closed forms: left and right J0(4 pi f A sin(spread/2)); dry against wet cos(2 pi f D0) J0(2 pi f A). */
describe("likeness of the vibrato's sides", () => {
  const input = [sine({ frequencyHz: 440, rateHz, lengthSeconds: 11 })];

  test.each([
    [90, -0.40154],
    [180, 0.0031],
    [0, 1],
  ])("spread %i degrees: %f", (spreadDegrees, expected) => {
    const settings = { depthMs: 1, lfoHz: 1, spreadDegrees };
    const [left, right] = wetOf({ model: "vibrato", settings, input, outputs: 2, rateHz });
    expectWithin(likeness(left, right, rateHz), expected, 2e-5);
    expectWithin(
      likeness(left, right, rateHz),
      besselJ0(4 * Math.PI * 0.44 * Math.sin((spreadDegrees * Math.PI) / 360)),
      2e-5,
    );
  });

  test("dry against wet", () => {
    const [wet] = wetOf({ model: "vibrato", settings: { depthMs: 1, lfoHz: 1 }, input, rateHz });
    const expected = Math.cos(2 * Math.PI * 0.44 * 1.15) * besselJ0(2 * Math.PI * 0.44);
    expectWithin(likeness(input[0], wet, rateHz), expected, 2e-5);
  });
});

/** The law of linear mixing: with the wet turned over on one side, (L + R)/2 holds the dry sound alone. */
test.each(["vibrato", "chorus", "flanger", "phaser"])("%s, wet inverted: mono loses the wet", (model) => {
  const input = [sine({ frequencyHz: 330, rateHz, lengthSeconds: 0.5, peakDbfs: -3 })];
  const run = {
    model,
    settings: { mix: 0.4, secondOutput: "inverted-wet" },
    input,
    outputs: 2,
    rateHz,
  } as const;
  const [left, right] = soundOf(run);
  const [wet] = wetOf(run);
  for (let n = 0; n < left.length; n++) {
    expect(Math.abs((left[n] + right[n]) / 2 - 0.6 * input[0][n])).toBeLessThan(1e-6);
    expect(Math.abs((left[n] - right[n]) / 2 - 0.4 * wet[n])).toBeLessThan(1e-6);
  }
  const [wetSide, drySide] = soundOf({ ...run, settings: { mix: 0.4, secondOutput: "wet-dry" } });
  expect(drySide).toEqual(input[0]);
  expect(wetSide).toEqual(wet);
});

/** Lengths of the periods of a tone of amplitude 1, in frames: from one rising zero crossing to the next, by arcs. */
function periodsOf(signal: Float32Array): number[] {
  const crossings: number[] = [];
  for (let n = 1; n < signal.length; n++) {
    if (signal[n - 1] >= 0 || signal[n] < 0) continue;
    const [before, after] = [Math.asin(signal[n - 1]), Math.asin(signal[n])];
    crossings.push(n - after / (after - before));
  }
  return crossings.slice(1).map((crossing, k) => crossing - crossings[k]);
}
