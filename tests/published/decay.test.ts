import { expect, test } from "vitest";
import { decayTimes } from "../../src/sound/measure/decay.js";
import { noise } from "../signals.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;

/** Closed form: the energy of exp(-k t / 2), k = 13.8155 / T, falls by 60 dB in T; EDT = T20 = T30 = T. */
test.each([0.3, 0.5, 1, 1.5, 2, 3])("an exponential of %d s", (seconds) => {
  for (const anyRateHz of [44_100, 48_000, 69_313]) {
    const response = exponential(seconds, 1.5 * seconds, anyRateHz);
    const { decay, reasons } = decayTimes([response, response], anyRateHz);
    expectWithin(decay?.edtSeconds ?? null, seconds, 1e-4 * seconds, "s");
    expectWithin(decay?.t20Seconds ?? null, seconds, 1e-4 * seconds, "s");
    expectWithin(decay?.t30Seconds ?? null, seconds, 1e-4 * seconds, "s");
    expect(reasons).toEqual({});
  }
});

/**
 * ISO 3382-1:2009, Annex A: clarity C = 10 lg(early energy / late energy), which the decay curve holds: with E the share
 * still to come, C = 10 lg((1 - E) / E), and D50 = 1 - E. Values for exponentials: closed form, 10 lg(e^(k te) - 1).
 */
test.each([
  [0.3, 9.542, 15.89, 0.9],
  [0.5, 4.744, 9.096, 0.7488],
  [1, -0.021, 3.053, 0.4988],
  [1.5, -2.329, 0.371, 0.369],
  [2, -3.845, -1.321, 0.2921],
  [3, -5.868, -3.512, 0.2057],
])("clarity of an exponential of %d s", (seconds, c50Db, c80Db, d50) => {
  const response = exponential(seconds, 1.5 * seconds, rateHz);
  const { decay } = decayTimes([response], rateHz);
  const toCome = (atSeconds: number) => 10 ** ((decay?.curveDb[Math.round(atSeconds / 0.01)] ?? 0) / 10);
  expect(decay?.stepSeconds).toBe(0.01);
  expectWithin(10 * Math.log10((1 - toCome(0.05)) / toCome(0.05)), c50Db, 0.001, "dB");
  expectWithin(10 * Math.log10((1 - toCome(0.08)) / toCome(0.08)), c80Db, 0.001, "dB");
  expectWithin(1 - toCome(0.05), d50, 0.0001);
});

/** The same decays carried by noise, as in a hall, one a side. 5 % is the least that can be heard of EDT (Table A.1). */
test.each([0.4, 1, 2.5])("noise that decays in %d s", (seconds) => {
  const sides = [1, 2].map((seed) => {
    const carrier = noise({ seed, frames: Math.round(1.5 * seconds * rateHz) });
    return exponential(seconds, 1.5 * seconds, rateHz).map((x, n) => x * carrier[n]);
  });
  const { decay } = decayTimes(sides, rateHz);
  expectWithin(decay?.edtSeconds ?? null, seconds, 0.05 * seconds, "s");
  expectWithin(decay?.t20Seconds ?? null, seconds, 0.03 * seconds, "s");
  expectWithin(decay?.t30Seconds ?? null, seconds, 0.03 * seconds, "s");
});

/** ISO 3382-1:2009, 5.3: T20 takes 35 dB above the noise, T30 45 dB. */
test("noise in the measurement rules out what it spoils", () => {
  const withFloor = (floorDb: number) => {
    const decaying = exponential(1, 2, rateHz);
    const carrier = noise({ seed: 3, frames: decaying.length, rms: 1 });
    const floor = noise({ seed: 4, frames: decaying.length, rms: 10 ** (floorDb / 20) });
    return decayTimes([decaying.map((x, n) => x * carrier[n] + floor[n])], rateHz);
  };
  const clean = withFloor(-60);
  expectWithin(clean.decay?.t20Seconds ?? null, 1, 0.03, "s");
  expectWithin(clean.decay?.t30Seconds ?? null, 1, 0.03, "s");
  const middling = withFloor(-41);
  expectWithin(middling.decay?.t20Seconds ?? null, 1, 0.04, "s");
  expect(middling.decay?.t30Seconds).toBeNull();
  expect(middling.reasons["decay.t30Seconds"]).toMatch(/35 dB/);
  const noisy = withFloor(-28);
  expect(noisy.decay?.t20Seconds).toBeNull();
  expect(noisy.decay?.t30Seconds).toBeNull();
  expectWithin(noisy.decay?.edtSeconds ?? null, 1, 0.06, "s");
});

/** ISO 3382-1:2009, 5.3.3: what is cut off is added, as an exponential of the late slope. */
test("a response that is cut off keeps its slope, or gives no time", () => {
  const cutAtDb = (db: number) => decayTimes([exponential(1, db / 60, rateHz)], rateHz);
  expectWithin(cutAtDb(60).decay?.t30Seconds ?? null, 1, 0.001, "s");
  expectWithin(cutAtDb(50).decay?.t30Seconds ?? null, 1, 0.001, "s");
  expectWithin(cutAtDb(40).decay?.t20Seconds ?? null, 1, 0.001, "s");
  expect(cutAtDb(40).decay?.t30Seconds).toBeNull();
  expect(cutAtDb(30).decay?.t20Seconds).toBeNull();
  expectWithin(cutAtDb(30).decay?.edtSeconds ?? null, 1, 0.01, "s");
});

/** Schroeder 1962: a comb of delay tau and gain g decays in T = 3 tau / -lg g: its energy falls by 60 dB in T. */
test.each([
  [29.7, 0.814517, 1],
  [37.1, 0.773927, 1],
  [41.1, 0.867661, 2],
  [43.7, 0.859904, 2],
])("a comb of %d ms and gain %d decays in %d s", (delayMs, gain, seconds) => {
  const response = new Float32Array(3 * rateHz);
  for (let k = 0; k * delayMs < 3000; k++)
    response[Math.min(response.length - 1, Math.round((k * delayMs * rateHz) / 1000))] = gain ** k;
  const { decay } = decayTimes([response], rateHz);
  expectWithin(decay?.t30Seconds ?? null, seconds, 0.03 * seconds, "s");
});

/** Closed form: what starts later decays as fast; the first 20 dB of silence are not part of it (5.3.3). */
test("silence before the sound does not count", () => {
  const decaying = exponential(0.8, 1.5, rateHz);
  const late = new Float32Array(decaying.length + 7001);
  late.set(decaying, 7001);
  expect(decayTimes([late], rateHz)).toEqual(decayTimes([decaying], rateHz));
});

test("what does not ring has no decay", () => {
  const click = new Float32Array(rateHz);
  click[100] = 1;
  const { decay, reasons } = decayTimes([click, click], rateHz);
  expect(decay).toEqual({
    edtSeconds: null,
    t20Seconds: null,
    t30Seconds: null,
    curveDb: [0],
    stepSeconds: 0.01,
  });
  expect(reasons["decay.t20Seconds"]).toMatch(/nothing rings on/);
  expect(decayTimes([new Float32Array(100)], rateHz)).toEqual({
    decay: null,
    reasons: { decay: "the impulse response is silent" },
  });
});

function exponential(decaySeconds: number, lengthSeconds: number, anyRateHz: number): Float32Array {
  const k = (6 * Math.LN10) / decaySeconds;
  return Float32Array.from({ length: Math.round(lengthSeconds * anyRateHz) }, (_, n) =>
    Math.exp((-k * n) / anyRateHz / 2),
  );
}

/**
 * A click ahead of an exponential: the curve drops to -D dB at once and falls on by 60 dB in T. A line through what is
 * left of a range tells T as long as that is half of it: closed form. T20 reads from -5 to -25 dB, T30 to -35 dB.
 */
test.each([
  [14, 0.6, 0.6],
  [16, null, 0.6],
  [19, null, 0.6],
  [21, null, null],
])("a drop of %d dB, then 0.6 s", (dropDb, t20, t30) => {
  const response = exponential(0.6, 1, rateHz);
  const tail = response.subarray(1).reduce((sum, x) => sum + x * x, 0);
  // -D = 10 log10(tail / (click + tail)).
  response[0] = Math.sqrt(tail * (10 ** (dropDb / 10) - 1));
  const { decay, reasons } = decayTimes([response], rateHz);
  for (const [field, expected] of [
    ["t20Seconds", t20],
    ["t30Seconds", t30],
  ] as const) {
    if (expected !== null) expectWithin(decay?.[field] ?? null, expected, 1e-3, "s");
    else
      expect([decay?.[field], reasons[`decay.${field}`]]).toEqual([null, expect.stringMatching(/at once/)]);
  }
});
