import { describe, expect, test } from "vitest";
import { halfBandArrays, halfBandBytes, halfBandCoefficients } from "../../src/sound/dsp/halfBand.js";
import { OversampledBend, oversamplingDelayFrames } from "../../src/sound/dsp/oversampling.js";
import { openRoom, roomBytes } from "../../src/sound/loops/room.js";
import { circleMean } from "../closedForms.js";
import { dtft, gainDbAt, toneAmplitude } from "../dtft.js";
import { modelOf, wetOf } from "../rig/pedals/runPedal.js";
import { impulse, sine } from "../signals.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;
const plain = { asymmetry: 0, toneHz: 12_000, levelDb: 0 };

/**
 * Harmonic n of y = tanh(drive sin t) is 2 mean(y sin n t) (Fourier). Measured on a tone of 100 Hz, far under the tone
 * filter, whose own loss is under 0.001 dB there.
 */
test.each([6, 20, 40])("harmonics of the curve, drive %i dB", (driveDb) => {
  const drive = 10 ** (driveDb / 20);
  const input = [sine({ frequencyHz: 100, rateHz, lengthSeconds: 2, peakDbfs: -6.0206 })];
  const [out] = wetOf({ model: "overdrive", settings: { ...plain, driveDb }, input, rateHz });
  const steady = out.subarray(rateHz);
  for (const harmonic of [1, 3, 5, 7]) {
    const expected = 2 * circleMean((t) => Math.tanh((drive / 2) * Math.sin(t)) * Math.sin(harmonic * t));
    expectWithin(
      toneAmplitude(steady, 100 * harmonic, rateHz),
      Math.abs(expected),
      0.006 * Math.abs(expected) + 1e-6,
    );
  }
  for (const even of [2, 4]) expect(toneAmplitude(steady, 100 * even, rateHz)).toBeLessThan(1e-5);
});

/** Small sounds see the slope of the curve: drive (1 - tanh(asymmetry)^2). Even harmonics need asymmetry. */
test("asymmetry: the slope falls, even harmonics come, no offset stays", () => {
  const asymmetry = 0.6;
  const settings = { ...plain, driveDb: 20, asymmetry };
  const quiet = [sine({ frequencyHz: 500, rateHz, lengthSeconds: 1, peakDbfs: -80 })];
  const [soft] = wetOf({ model: "overdrive", settings, input: quiet, rateHz });
  expectWithin(toneAmplitude(soft, 500, rateHz) / 1e-4, 10 * (1 - Math.tanh(asymmetry) ** 2), 0.01);
  const loud = [sine({ frequencyHz: 500, rateHz, lengthSeconds: 2, peakDbfs: -6 })];
  const [hard] = wetOf({ model: "overdrive", settings, input: loud, rateHz });
  expect(toneAmplitude(hard.subarray(rateHz), 1000, rateHz)).toBeGreaterThan(0.05);
  expectWithin(hard.subarray(rateHz).reduce((sum, x) => sum + x, 0) / rateHz, 0, 1e-5);
});

/**
 * Aliasing: a 5000 Hz tone has harmonics at multiples of 5000 Hz; at 48 kHz everything at another multiple of 1000 Hz
 * has folded down. Beside it stands the same curve at the plain rate. The limits are our own figures.
 */
describe("aliasing", () => {
  test.each([
    [10, -140, -50],
    [20, -140, -25],
    [40, -43, -18],
  ])(
    "drive %i dB: at most %i dB to the tone, where the plain rate gives over %i dB",
    (driveDb, limitDb, plainDb) => {
      const tone = sine({ frequencyHz: 5000, rateHz, lengthSeconds: 2, peakDbfs: -6 });
      const [out] = wetOf({ model: "overdrive", settings: { ...plain, driveDb }, input: [tone], rateHz });
      expect(foldedDb(out.subarray(rateHz))).toBeLessThan(limitDb);
      const drive = 10 ** (driveDb / 20);
      expect(foldedDb(tone.map((x) => Math.tanh(drive * x)).subarray(rateHz))).toBeGreaterThan(plainDb);
    },
  );
});

/** The loudest tone under 20 kHz that no harmonic of 5000 Hz accounts for, to the tone itself. */
function foldedDb(second: Float32Array): number {
  let folded = 0;
  for (let hz = 1000; hz < 20_000; hz += 1000) {
    if (hz % 5000 !== 0) folded = Math.max(folded, toneAmplitude(second, hz, rateHz));
  }
  return 20 * Math.log10(folded / toneAmplitude(second, 5000, rateHz));
}

/** What a half-band filter is for: flat to its pass band, at least 100 dB down from its stop band on. */
describe("half-band filters", () => {
  test.each([
    [10, 0.0465],
    [4, 0.2732],
    [3, 0.3866],
  ])("%i sections, transition %f", (sections, transition) => {
    const coefficients = halfBandCoefficients(sections, transition);
    const response = doubled(coefficients, Float64Array.from(impulse(4096)));
    for (let k = 0; k <= 50; k++) {
      const pass = ((0.25 - transition / 2) * k) / 50;
      expectWithin(gainDbAt(response, pass, 1) - 20 * Math.log10(2), 0, 1e-6, `dB at ${pass}`);
      expect(gainDbAt(response, 0.5 - pass, 1) - 20 * Math.log10(2), `at ${0.5 - pass}`).toBeLessThan(-100);
    }
  });

  test("halving undoes doubling", () => {
    const coefficients = halfBandCoefficients(10, 0.0465);
    const tone = Float64Array.from(sine({ frequencyHz: 1000, rateHz, lengthSeconds: 0.1 }));
    const back = halved(coefficients, doubled(coefficients, tone));
    expectWithin(toneAmplitude(back.subarray(960), 1000, rateHz), 1, 1e-5);
  });
});

function doubled(coefficients: Float64Array, sound: Float64Array): Float64Array {
  const room = openRoom(roomBytes(8 * sound.length, 16 * sound.length) + halfBandBytes(coefficients));
  const [input, output] = [room.doubles(sound.length), room.doubles(2 * sound.length)];
  input.set(sound);
  room.loops.double(halfBandArrays(coefficients, input, output, room))(sound.length);
  return output;
}

function halved(coefficients: Float64Array, sound: Float64Array): Float64Array {
  const frames = sound.length / 2;
  const room = openRoom(roomBytes(8 * sound.length, 8 * frames) + halfBandBytes(coefficients));
  const [input, output] = [room.doubles(sound.length), room.doubles(frames)];
  input.set(sound);
  room.loops.halve(halfBandArrays(coefficients, input, output, room))(frames);
  return output;
}

/** Group delay at 0 Hz is the centre of gravity of the response, sum(n h)/sum(h): closed form. */
test("latency is what low tones are late by", () => {
  // So faint that the curve is straight, to 1e-8.
  const response = new Float32Array(4096);
  const faint = impulse(4096).map((x) => 1e-4 * x);
  new OversampledBend(1, 0).process(faint, response, 4096);
  const moment = response.reduce((sum, x, n) => sum + n * x, 0) / dtft(response, 0, 1)[0];
  expectWithin(moment, oversamplingDelayFrames, 1e-3, "frames");
  const lag = modelOf("overdrive").latencyFrames?.({}, rateHz) ?? 0;
  expectWithin(lag, oversamplingDelayFrames, 0.5, "frames");
});

/**
 * Butterworth's low-pass of second order: |H|^2 = 1 / (1 + (f/fc)^4), by the bilinear transform tan(pi f / rate) in place
 * of f. A quiet tone, so that the curve is a line; both at the corner and an octave below and above it.
 */
test.each([2000, 5000])("the tone knob's corner at %d Hz", (toneHz) => {
  const warped = (hz: number) => Math.tan((Math.PI * hz) / rateHz);
  const gainOf = (hz: number) => {
    const tone = [sine({ frequencyHz: hz, rateHz, lengthSeconds: 1, peakDbfs: -60 })];
    const [out] = wetOf({
      model: "overdrive",
      settings: { ...plain, driveDb: 0, toneHz },
      input: tone,
      rateHz,
    });
    return 20 * Math.log10(toneAmplitude(out.subarray(rateHz / 2), hz, rateHz) / 1e-3);
  };
  const passed = gainOf(toneHz / 8);
  for (const hz of [toneHz / 2, toneHz, 2 * toneHz]) {
    const expected = -10 * Math.log10(1 + (warped(hz) / warped(toneHz)) ** 4);
    expectWithin(gainOf(hz) - passed, expected, 0.02, `dB at ${hz} Hz`);
  }
});
