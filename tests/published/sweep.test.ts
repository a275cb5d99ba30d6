import { expect, test } from "vitest";
import { AnalysisFft, fftSizeFor } from "../../src/sound/dsp/analysisFft.js";
import { harmonicAheadFrames } from "../../src/work/capture/harmonics.js";
import { bandWeight, sweepSamples, toneLayout } from "../../src/work/capture/toneLayout.js";
import { toneSettingsOf } from "../../src/work/capture/toneSettings.js";
import { expectWithin } from "../within.js";

/**
 * The exponential sweep: A. Farina, "Simultaneous measurement of impulse response and distortion with a swept-sine
 * technique", AES 108th Convention, 2000, preprint 5093, and the synchronised form of Novak, Lotton and Simon, JAES 63(10),
 * 2015. Closed forms that follow are marked so.
 */
const settings = toneSettingsOf({ fromHz: 20, toHz: 20_000, lengthSeconds: 4, levelDbfs: -6 });
const layout = toneLayout(settings);
const { rateHz } = settings;
const peak = 10 ** (-6 / 20);
const constant = layout.timeConstantSeconds;
const sweep = Float64Array.from(sweepSamples(layout), (x) => x / peak);

function spectrum(signal: Float64Array, size: number) {
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  re.set(signal);
  new AnalysisFft(size).forward(re, im);
  return { re, im };
}

/** Farina's inverse filter: the sweep backwards, under e^(-t/L). */
const paperInverse = Float64Array.from(
  { length: sweep.length },
  (_, n) => sweep[sweep.length - 1 - n] * Math.exp(-n / rateHz / constant),
);

/** The signal convolved with the paper's inverse; the linear response starts at frame sweep.length - 1. */
function deconvolvedByPaper(signal: Float64Array): Float64Array {
  const size = fftSizeFor(2 * signal.length);
  const [a, b] = [spectrum(signal, size), spectrum(paperInverse, size)];
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  for (let k = 0; k < size; k++) {
    re[k] = a.re[k] * b.re[k] - a.im[k] * b.im[k];
    im[k] = a.re[k] * b.im[k] + a.im[k] * b.re[k];
  }
  new AnalysisFft(size).inverse(re, im);
  return re;
}

test("the samples are sin(2 pi f1 L (e^(t/L) - 1)) between the fades, and f1 L is whole", () => {
  expectWithin(20 * constant, Math.round(20 * constant), 1e-12);
  expectWithin(constant, 4 / Math.log(1000), 0.5 / 20, "s");
  for (let n = 0; n < sweep.length; n += 997) {
    const t = n / rateHz;
    const frequencyHz = 20 * Math.exp(t / constant);
    if (bandWeight(layout, frequencyHz) < 1) continue;
    const phase = 2 * Math.PI * 20 * constant * (Math.exp(t / constant) - 1);
    expectWithin(sweep[n], Math.sin(phase), 1e-6, `at ${frequencyHz} Hz`);
  }
});

/** Closed form: |X(f)| = fs / 2 sqrt(L / f), that is -3 dB an octave. */
test("its spectrum falls by 3 dB an octave, at the level of the closed form", () => {
  const size = fftSizeFor(sweep.length);
  const { re, im } = spectrum(sweep, size);
  for (const frequencyHz of [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000]) {
    const [first, last] = [0.97, 1.03].map((ratio) => Math.round((ratio * frequencyHz * size) / rateHz));
    let [found, expected] = [0, 0];
    for (let k = first; k <= last; k++) {
      found += re[k] ** 2 + im[k] ** 2;
      expected += ((rateHz / 2) ** 2 * constant * size) / (k * rateHz);
    }
    expectWithin(10 * Math.log10(found / expected), 0, 0.1, `dB at ${frequencyHz} Hz`);
  }
});

/** Closed form: sweep * inverse has the flat gain fs^2 L / (4 f2), at frame N - 1. */
test("the paper's inverse draws it together, with the gain of the closed form", () => {
  const drawn = deconvolvedByPaper(sweep);
  const top = drawn.reduce((best, x, n) => (Math.abs(x) > Math.abs(drawn[best]) ? n : best), 0);
  expect(top).toBe(sweep.length - 1);
  const size = fftSizeFor(2 * sweep.length);
  const { re, im } = spectrum(drawn.subarray(0, size), size);
  const gain = (rateHz ** 2 * constant) / (4 * 20_000);
  for (const frequencyHz of [100, 1000, 5000, 10_000]) {
    const k = Math.round((frequencyHz * size) / rateHz);
    expectWithin(20 * Math.log10(Math.hypot(re[k], im[k]) / gain), 0, 0.15, "dB");
  }
});

/** Farina 2000: the products of order n stand L ln n ahead of the linear response. */
test.each([2, 3, 4, 5])("order %i lands L ln n ahead, by the paper's own inverse", (order) => {
  const pure = sweep.map((x) => Math.cos(order * Math.acos(Math.max(-1, Math.min(1, x)))));
  const drawn = deconvolvedByPaper(pure);
  const expected = sweep.length - 1 - constant * Math.log(order) * rateHz;
  const near = drawn.subarray(Math.round(expected) - 5000, Math.round(expected) + 5000);
  const top = near.reduce((best, x, n) => (Math.abs(x) > Math.abs(near[best]) ? n : best), 0);
  expectWithin(top + Math.round(expected) - 5000, expected, 4, "frames");
  expectWithin(sweep.length - 1 - harmonicAheadFrames(layout, order), expected, 1e-6, "frames");
});
