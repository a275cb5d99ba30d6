import { expect, test } from "vitest";
import { truePeakDbtp } from "../../src/sound/measure/truePeak.js";
import { sine } from "../signals.js";
import { faded, rates } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

/**
 * EBU Tech 3341 v4 (2023), Table 1, cases 15 to 19: +0.2/-0.4 dB. The tones are faded in and out over 20 ms: an abrupt
 * start makes every interpolator overshoot, which is a peak, but not of the steady tone that the case is about.
 */
test.each([
  [15, 4, 0.5, 0, -6],
  [16, 4, 0.5, 45, -6],
  [17, 6, 0.5, 60, -6],
  [18, 8, 0.5, 67.5, -6],
  [19, 4, 1.41, 45, 3],
])("true peak, Tech 3341 case %i", (_case, divisor, amplitude, phaseDegrees, expectedDbtp) => {
  for (const rateHz of [...rates, 8_000, 96_000, 192_000]) {
    const unit = sine({ frequencyHz: rateHz / divisor, phaseDegrees, lengthSeconds: 1, rateHz });
    const tone = faded(
      unit.map((x) => amplitude * x),
      rateHz,
    );
    // From 192 kHz on nothing is interpolated: there the samples are read, and the cases are below that rate.
    if (rateHz < 96_000) expectAsTolerated(truePeakDbtp([tone, tone], rateHz), expectedDbtp);
    else if (rateHz === 192_000) {
      const largest = tone.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
      expectWithin(truePeakDbtp([tone], rateHz), 20 * Math.log10(largest), 1e-9, "dBTP");
    }
  }
});

/**
 * Cases 20 to 23: 1/6 of the rate at 0.50 with one period of 1/4 of the rate at 1.00, the phase running on, made at
 * four times the rate, low-passed and taken one in four from offset 0, 1, 2, 3: 0.0 dBTP +0.2/-0.4.
 * With a nearly ideal low-pass the peak is -0.130 dB, of the samples alone -0.130, -0.459, -2.498, -0.459 (computed).
 */
test.each([
  [20, 0],
  [21, 1],
  [22, 2],
  [23, 3],
])("true peak, Tech 3341 case %i", (_case, offset) => {
  const fourfold = lowPassed(burst());
  const tone = Float32Array.from({ length: fourfold.length / 4 }, (_, n) => fourfold[4 * n + offset]);
  for (const rateHz of rates) {
    expectAsTolerated(truePeakDbtp([tone, tone], rateHz), 0);
    expectWithin(truePeakDbtp([tone], rateHz), -0.13, 0.06, "dBTP");
  }
  const samplePeak = tone.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  expectWithin(20 * Math.log10(samplePeak), [-0.13, -0.459, -2.498, -0.459][offset], 0.01, "dBFS");
});

/** Closed form: a steady sine is under-read by at most 20 log10 cos(pi f / (n fs)), n points a frame. */
test.each([
  [44_100, 5],
  [48_000, 4],
  [96_000, 2],
  [8_000, 24],
])("at %d Hz, %i points a frame miss no more than they must", (rateHz, points) => {
  for (const share of [0.03, 0.117, 0.25, 0.3339, 0.41, 0.4497]) {
    const tone = faded(sine({ frequencyHz: share * rateHz, lengthSeconds: 0.5, rateHz }), rateHz);
    const most = 20 * Math.log10(Math.cos((Math.PI * share) / points));
    const reading = truePeakDbtp([tone], rateHz) ?? Number.NaN;
    expect(reading, `${share} of the rate`).toBeGreaterThanOrEqual(most - 0.01);
    expect(reading, `${share} of the rate`).toBeLessThanOrEqual(0.01);
  }
});

function expectAsTolerated(actualDbtp: number | null, expectedDbtp: number): void {
  expectWithin(actualDbtp, expectedDbtp - 0.1, 0.3, "dBTP");
}

/** At four times the rate; faded over 20 ms at 48 kHz. */
function burst(): Float64Array {
  const frames = 4 * 9600;
  const out = new Float64Array(frames);
  let phase = 0;
  const loudFrom = 24 * 800;
  const loudTo = loudFrom + 16;
  for (let n = 0; n < frames; n++) {
    const loud = n >= loudFrom && n < loudTo;
    const edge = Math.min(n, frames - 1 - n) / (4 * 960);
    const fade = edge < 1 ? 0.5 - 0.5 * Math.cos(Math.PI * edge) : 1;
    out[n] = (loud ? 1 : 0.5) * fade * Math.sin(phase);
    phase += (2 * Math.PI) / (loud ? 16 : 24);
  }
  return out;
}

/** To an eighth of the (fourfold) rate, by a long windowed sinc; Blackman's window. */
function lowPassed(signal: Float64Array): Float64Array {
  const half = 1000;
  const taps = Array.from({ length: 2 * half + 1 }, (_, k) => {
    const t = (k - half) / 4;
    const u = (Math.PI * (k - half)) / half;
    const sinc = t === 0 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t);
    return (sinc / 4) * (0.42 + 0.5 * Math.cos(u) + 0.08 * Math.cos(2 * u));
  });
  return signal.map((_, n) => taps.reduce((sum, tap, k) => sum + tap * (signal[n + half - k] ?? 0), 0));
}
