import fc from "fast-check";
import { expect, test } from "vitest";
import { before } from "../../../src/sound/loops/peaks.js";
import { peakInterpolator } from "../../../src/sound/measure/peakInterpolator.js";
import { TruePeakMeter, truePeakDbtp } from "../../../src/sound/measure/truePeak.js";
import { noise, randomNumbers } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { levels, mix } from "./testTones.js";

const anySeed = fc.integer({ min: 1, max: 1e9 });

/** A law that must hold: leaving out what cannot matter gives the peak of computing every point, here done plainly. */
test("the peak is that of every point between all frames", () => {
  const rate = fc.constantFrom(8_000, 44_100, 48_000, 88_200, 96_000, 192_000);
  fc.assert(
    fc.property(anySeed, rate, fc.integer({ min: 1, max: 900 }), (seed, rateHz, frames) => {
      const sound = anySound(seed, frames);
      const meter = new TruePeakMeter(rateHz);
      meter.push(sound, frames);
      expectWithin(meter.result().truePeak / plainPeak(sound, rateHz), 1, 1e-12);
    }),
    { numRuns: 150 },
  );
});

/** Peaks far apart in a long sound, and the first of two equal ones: the bound must not rule out the larger. */
test.each([44_100, 48_000, 96_000])("so it is in longer sounds, at %i Hz", (rateHz) => {
  const rumble = levels([[0.5, -6]], rateHz, 90);
  for (const gain of [0.01, 0.1, 0.5, 2]) {
    const sound = mix(rumble, 1, noise({ seed: 7, frames: rumble.length }), gain);
    const meter = new TruePeakMeter(rateHz);
    meter.push(sound, sound.length);
    expectWithin(meter.result().truePeak / plainPeak(sound, rateHz), 1, 1e-12);
  }
});

/**
 * Closed form, the worst case: samples with the signs of the taps make the sum of all products' sizes. Sizes change from
 * one stretch of 16 frames to the next, and an earlier sample nearly as large as that sum is the peak to beat.
 */
test("a peak far above its samples is found behind a higher sample", () => {
  const next = randomNumbers(1);
  for (const rateHz of [44_100, 48_000, 96_000]) {
    for (const { taps } of peakInterpolator(rateHz)) {
      for (let start = 400; start < 416; start++) {
        const sizes = Array.from({ length: 5 }, () => 0.2 + 0.8 * next());
        const stretch = (j: number) => sizes[Math.floor((start + j) / 16) - Math.floor(start / 16)];
        const samples = Float32Array.from(taps, (tap, j) => Math.sign(tap) * stretch(j));
        const sum = taps.reduce((total, tap, j) => total + tap * samples[j], 0);
        const sound = new Float32Array(700);
        sound[200] = sum * 0.999;
        sound.set(samples, start);
        const meter = new TruePeakMeter(rateHz);
        meter.push(sound, 700);
        expectWithin(meter.result().truePeak / plainPeak(sound, rateHz), 1, 1e-12);
      }
    }
  }
});

test("a result may be asked for on the way", () => {
  const sound = anySound(5, 5000);
  const [asked, silent] = [new TruePeakMeter(48_000), new TruePeakMeter(48_000)];
  for (let from = 0; from < 5000; from += 500) {
    asked.push(sound.subarray(from), 500);
    silent.push(sound.subarray(from), 500);
    asked.result();
  }
  expect(asked.result()).toEqual(silent.result());
});

/** Ripple of the interpolator: within 0.01 dB up to 0.46 of the rate at every point, and a constant is kept. */
test.each([8_000, 44_100, 48_000, 96_000])("the interpolator at %i Hz is flat", (rateHz) => {
  const phases = peakInterpolator(rateHz);
  expect((phases.length + 1) * rateHz).toBeGreaterThanOrEqual(192_000);
  for (const { taps } of phases) {
    expectWithin(
      taps.reduce((sum, tap) => sum + tap, 0),
      1,
      1e-12,
    );
    for (let share = 0.01; share <= 0.46; share += 0.01) {
      const part = (wave: (x: number) => number) =>
        taps.reduce((sum, tap, j) => sum + tap * wave(2 * Math.PI * share * (j - before)), 0);
      expectWithin(20 * Math.log10(Math.hypot(part(Math.cos), part(Math.sin))), 0, 0.01, "dB");
    }
  }
});

test("silence has no peak", () => {
  expect(truePeakDbtp([new Float32Array(1000)], 48_000)).toBeNull();
  expect(truePeakDbtp([], 48_000)).toBeNull();
});

/** Every point from half a kernel before the first frame to half a kernel behind the last, with nothing left out. */
function plainPeak(sound: Float32Array, rateHz: number): number {
  let peak = sound.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  for (const { taps } of peakInterpolator(rateHz)) {
    for (let n = -taps.length; n < sound.length + taps.length; n++) {
      let value = 0;
      for (let j = 0; j < taps.length; j++) value += taps[j] * (sound[n - before + j] ?? 0);
      peak = Math.max(peak, Math.abs(value));
    }
  }
  return peak;
}

/** Clicks, bursts, low waves and noise by chance: peaks at edges of blocks, alone and in company. */
function anySound(seed: number, frames: number): Float32Array {
  const next = randomNumbers(seed);
  const [clicks, wave, hiss] = [next(), next(), next() ** 3];
  const step = next() * Math.PI;
  return Float32Array.from({ length: frames }, (_, n) => {
    const click = next() < 0.02 ? (next() - 0.5) * 4 * clicks : 0;
    return click + wave * Math.sin(step * n) + hiss * (next() - 0.5);
  });
}
