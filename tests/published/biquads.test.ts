import { describe, expect, test } from "vitest";
import { OfflineAudioContext } from "web-audio-api";
import { Biquad, BiquadChain, type BiquadCoefficients } from "../../src/sound/dsp/biquad.js";
import {
  allPass,
  bandPass,
  biquadGainDb,
  highPass,
  highShelf,
  lowPass,
  lowShelf,
  notch,
  peaking,
} from "../../src/sound/dsp/biquadDesign.js";
import { dtft, gainDbAt } from "../dtft.js";
import { wetOf } from "../rig/pedals/runPedal.js";
import { impulse, noise } from "../signals.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;
const frequenciesHz = [30, 100, 180, 400, 1000, 2500, 7000, 15_000, 22_000];

/**
 * The BiquadFilterNode of the W3C Web Audio API is defined by the same cookbook formulas (R. Bristow-Johnson): an
 * independent implementation of it is the judge, in magnitude and phase. It computes in single precision.
 * Its Q for low- and high-pass is in dB, its shelves have slope 1.
 */
describe("biquads against the Web Audio API", () => {
  const qDb = (q: number) => 20 * Math.log10(q);
  test.each<[string, BiquadCoefficients, { frequency: number; Q?: number; gain?: number }]>([
    ["lowpass", lowPass({ cutoffHz: 900, q: 2, rateHz }), { frequency: 900, Q: qDb(2) }],
    ["highpass", highPass({ cutoffHz: 90, q: 0.9, rateHz }), { frequency: 90, Q: qDb(0.9) }],
    ["bandpass", bandPass({ cutoffHz: 900, q: 3, rateHz }), { frequency: 900, Q: 3 }],
    ["notch", notch({ cutoffHz: 950, q: 3, rateHz }), { frequency: 950, Q: 3 }],
    ["allpass", allPass({ cutoffHz: 900, q: 0.6, rateHz }), { frequency: 900, Q: 0.6 }],
    [
      "peaking",
      peaking({ cutoffHz: 3000, q: 1.5, gainDb: -7, rateHz }),
      { frequency: 3000, Q: 1.5, gain: -7 },
    ],
    ["lowshelf", lowShelf({ cutoffHz: 200, gainDb: 9, rateHz }), { frequency: 200, gain: 9 }],
    ["highshelf", highShelf({ cutoffHz: 2500, gainDb: -11, rateHz }), { frequency: 2500, gain: -11 }],
  ])("%s", (type, coefficients, values) => {
    const node = new OfflineAudioContext(1, 128, rateHz).createBiquadFilter();
    Object.assign(node, { type });
    node.frequency.value = values.frequency;
    if (values.Q !== undefined) node.Q.value = values.Q;
    if (values.gain !== undefined) node.gain.value = values.gain;
    const magnitudes = new Float32Array(frequenciesHz.length);
    const phases = new Float32Array(frequenciesHz.length);
    node.getFrequencyResponse(Float32Array.from(frequenciesHz), magnitudes, phases);

    const response = new Float32Array(32_768);
    new BiquadChain([coefficients]).process(impulse(32_768), response, 32_768);
    frequenciesHz.forEach((hz, k) => {
      const [re, im] = dtft(response, hz, rateHz);
      expectWithin(Math.hypot(re, im), magnitudes[k], 2e-5, `at ${hz} Hz`);
      const turn = Math.atan2(im, re) - phases[k];
      expectWithin(Math.abs(Math.sin(turn / 2)), 0, 1e-4, `half the turn at ${hz} Hz`);
      expectWithin(biquadGainDb(coefficients, hz, rateHz), 20 * Math.log10(Math.hypot(re, im)), 1e-3, "dB");
    });
  });
});

/** The same cookbook: a shelf gives half its dB at its corner, all of it at its end of the spectrum. */
test("tone: half a shelf's dB at its corner, all of them at its end", () => {
  const settings = { bassDb: 8, bassHz: 150, trebleDb: -10, trebleHz: 4000 };
  const [response] = wetOf({ model: "tone", settings, input: [impulse(rateHz)], rateHz });
  expectWithin(gainDbAt(response, 0, rateHz), 8, 1e-3, "dB");
  expectWithin(gainDbAt(response, 150, rateHz), 4, 0.03, "dB, the other shelf adds its skirt");
  expectWithin(gainDbAt(response, 4000, rateHz), -5, 0.03, "dB");
  expectWithin(gainDbAt(response, rateHz / 2, rateHz), -10, 1e-3, "dB");
});

/** A Butterworth low-pass of order 8 is 3.01 dB down at its corner and falls 48 dB an octave: closed form. */
test("speaker: a steep end at its roll-off, nothing under the resonance", () => {
  const settings = { presenceDb: 0, rollOffHz: 4000, resonanceHz: 90 };
  const [response] = wetOf({ model: "speaker", settings, input: [impulse(rateHz)], rateHz });
  expectWithin(gainDbAt(response, 4000, rateHz), -3.01, 0.02, "dB");
  const warped = Math.tan((Math.PI * 8000) / rateHz) / Math.tan((Math.PI * 4000) / rateHz);
  expectWithin(gainDbAt(response, 8000, rateHz), -10 * Math.log10(1 + warped ** 16), 0.05, "dB an octave up");
  expectWithin(gainDbAt(response, 1000, rateHz), 0, 0.1, "dB in the middle");
  // A second-order high-pass of Q stands at Q at its corner, and falls 12 dB an octave: closed form.
  expectWithin(gainDbAt(response, 90, rateHz), 20 * Math.log10(1.3), 0.01, "dB at the resonance");
  expectWithin(gainDbAt(response, 11.25, rateHz), -36, 0.3, "dB three octaves under it");
  const [peaked] = wetOf({
    model: "speaker",
    settings: { ...settings, presenceDb: 6, presenceHz: 2000 },
    input: [impulse(rateHz)],
    rateHz,
  });
  expectWithin(gainDbAt(peaked, 2000, rateHz) - gainDbAt(response, 2000, rateHz), 6, 0.01, "dB of presence");
});

test("boost is its decibels", () => {
  const input = [noise({ seed: 5, frames: 100 })];
  const [out] = wetOf({ model: "boost", settings: { gainDb: 20 }, input });
  for (let n = 0; n < 100; n++) expectWithin(out[n], 10 * input[0][n], 1e-6);
});

test("a section may work in place", () => {
  const section = lowPass({ cutoffHz: 1000, rateHz });
  const sound = noise({ seed: 9, frames: 500 });
  const apart = new Float32Array(500);
  new Biquad(section).process(sound, apart, 500);
  new Biquad(section).process(sound, sound, 500);
  expect(sound).toEqual(apart);
});
