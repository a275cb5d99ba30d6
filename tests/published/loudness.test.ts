import { expect, test } from "vitest";
import type { BiquadCoefficients } from "../../src/sound/dsp/biquad.js";
import { kWeighting } from "../../src/sound/dsp/kWeighting.js";
import { powerToDb } from "../../src/sound/dsp/units.js";
import {
  integratedLufs,
  momentaryLufs,
  momentaryMaxLufs,
  shortTermLufs,
  shortTermMaxLufs,
} from "../../src/sound/measure/loudness.js";
import { sine } from "../signals.js";
import { levels, type Part, rates, repeated } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

/** ITU-R BS.1770-5 (2023), Annex 1, Tables 1 and 2: the coefficients for 48 kHz, to the digits printed. */
test("K-weighting at 48 kHz is the Recommendation's table", () => {
  const { shelf, highPass } = kWeighting(48_000);
  expectCoefficients(shelf, {
    b0: 1.53512485958697,
    b1: -2.69169618940638,
    b2: 1.19839281085285,
    a1: -1.69065929318241,
    a2: 0.73248077421585,
  });
  expectCoefficients(highPass, { b0: 1, b1: -2, b2: 1, a1: -1.99004745483398, a2: 0.99007225036621 });
});

/** The response of that table, computed from its coefficients (closed form): dB relative to 997 Hz. */
test.each([
  [20, -13.966],
  [25, -11.084],
  [31.5, -8.481],
  [50, -4.625],
  [100, -1.825],
  [250, -0.844],
  [500, -0.649],
  [1250, 0.651],
  [2000, 2.38],
  [4000, 3.277],
  [10_000, 3.351],
  [20_000, 3.352],
])("K-weighting at %d Hz is %d dB over 997 Hz", (frequencyHz, expectedDb) => {
  expectWithin(kGainDb(997, 48_000), 0.69101, 0.00001, "dB");
  expectWithin(kGainDb(frequencyHz, 48_000) - kGainDb(997, 48_000), expectedDb, 0.0006, "dB");
});

/** BS.1770-5, Annex 1: other rates have the frequency response of 48 kHz. No tolerance is given; these are ours. */
test.each([
  [32_000, 0.011],
  [44_100, 0.002],
  [69_313, 0.005],
  [88_200, 0.006],
  [96_000, 0.007],
  [192_000, 0.008],
  [8_000, 0.29],
])("K-weighting at a rate of %d Hz is within %d dB of that at 48 kHz", (rateHz, toleranceDb) => {
  for (let frequencyHz = 20; frequencyHz < Math.min(20_000, 0.45 * rateHz); frequencyHz *= 1.05) {
    expectWithin(kGainDb(frequencyHz, rateHz), kGainDb(frequencyHz, 48_000), toleranceDb, "dB");
  }
});

/** BS.1770-5, Annex 1: 997 Hz at 0 dBFS in one front channel reads -3.01 LKFS; in two, 3.01 dB more. */
test.each([44_100, 48_000, 69_313, 96_000, 192_000])(
  "997 Hz at 0 dBFS reads -3.01 LUFS at %d Hz",
  (rateHz) => {
    const tone = sine({ frequencyHz: 997, lengthSeconds: 10, rateHz });
    const silence = new Float32Array(tone.length);
    expectWithin(integratedLufs([tone, silence], rateHz), -3.01, 0.01, "LUFS");
    expectWithin(integratedLufs([silence, tone], rateHz), -3.01, 0.01, "LUFS");
    expectWithin(integratedLufs([tone], rateHz), -3.01, 0.01, "LUFS");
    expectWithin(integratedLufs([tone, tone], rateHz), 0, 0.01, "LUFS");
  },
);

/** ITU-R BS.2217-2 (2016): compliance tones in two channels read -24.0 +-0.1 LKFS. Peaks: exact, for these filters. */
test.each([
  [25, -12.916],
  [100, -22.176],
  [500, -23.351],
  [1000, -24.007],
  [2000, -26.38],
  [10_000, -27.351],
])("BS.2217: %d Hz at %d dBFS reads -24 LUFS", (frequencyHz, peakDbfs) => {
  for (const rateHz of rates) {
    const tone = sine({ frequencyHz, peakDbfs, lengthSeconds: 10, rateHz });
    expectWithin(integratedLufs([tone, tone], rateHz), -24, 0.1, "LUFS");
  }
});

/** EBU Tech 3341 v4 (2023), Table 1, cases 1 to 5: 1 kHz in both channels; M, S and I within 0.1 LU. */
test.each<[number, Part[], number]>([
  [1, [[20, -23]], -23],
  [2, [[20, -33]], -33],
  [
    3,
    [
      [10, -36],
      [60, -23],
      [10, -36],
    ],
    -23,
  ],
  [
    4,
    [
      [10, -72],
      [10, -36],
      [60, -23],
      [10, -36],
      [10, -72],
    ],
    -23,
  ],
  [
    5,
    [
      [20, -26],
      [20.1, -20],
      [20, -26],
    ],
    -23,
  ],
])("loudness, Tech 3341 case %i", (number, parts, expectedLufs) => {
  for (const rateHz of rates) {
    const tone = levels(parts, rateHz);
    expectWithin(integratedLufs([tone, tone], rateHz), expectedLufs, 0.1, "LUFS");
    if (number > 2) continue;
    expectWithin(momentaryMaxLufs([tone, tone], rateHz), expectedLufs, 0.1, "LUFS");
    expectWithin(shortTermMaxLufs([tone, tone], rateHz), expectedLufs, 0.1, "LUFS");
  }
});

/** Tech 3341, case 6: 5.0 sound, L and R -28, C -24, Ls and Rs -30 dBFS; weights of BS.1770-5, Table 3. */
test("loudness, Tech 3341 case 6", () => {
  for (const rateHz of rates) {
    const [front, centre, surround] = [-28, -24, -30].map((peakDbfs) => levels([[20, peakDbfs]], rateHz));
    const channels = [front, front, centre, surround, surround];
    expectWithin(integratedLufs(channels, rateHz, [1, 1, 1, 1.41, 1.41]), -23, 0.1, "LUFS");
  }
});

// Cases 7 and 8 are recordings of the EBU's, which may not be handed on: they are not checked here.

/** Tech 3341, case 9: short-term loudness constant after 3 s. */
test("short-term loudness, Tech 3341 case 9", () => {
  for (const rateHz of rates) {
    const tone = levels(
      repeated(5, [
        [1.34, -20],
        [1.66, -30],
      ]),
      rateHz,
    );
    const readings = shortTermLufs([tone, tone], rateHz);
    expect(readings.length).toBe(1201);
    for (const reading of readings) expectWithin(reading, -23, 0.1, "LUFS");
  }
});

/** Tech 3341, case 12: momentary loudness constant after 1 s. */
test("momentary loudness, Tech 3341 case 12", () => {
  for (const rateHz of rates) {
    const tone = levels(
      repeated(25, [
        [0.18, -20],
        [0.22, -30],
      ]),
      rateHz,
    );
    for (const reading of momentaryLufs([tone, tone], rateHz).subarray(60)) {
      expectWithin(reading, -23, 0.1, "LUFS");
    }
  }
});

const twenty = Array.from({ length: 20 }, (_, i) => i);

/** Tech 3341, cases 10 and 13: twenty files each, the tone later and later; the largest reading is the same in all. */
test("largest readings, Tech 3341 cases 10 and 13", () => {
  for (const rateHz of rates) {
    for (const i of twenty) {
      const long = levels(
        [
          [i * 0.15, null],
          [3, -23],
          [1, null],
        ],
        rateHz,
      );
      expectWithin(shortTermMaxLufs([long, long], rateHz), -23, 0.1, "LUFS");
      const short = levels(
        [
          [i * 0.02, null],
          [0.4, -23],
          [1, null],
        ],
        rateHz,
      );
      expectWithin(momentaryMaxLufs([short, short], rateHz), -23, 0.1, "LUFS");
    }
  }
});

/** Tech 3341, cases 11 and 14, meant for live meters: the units of one file, read one by one. */
test("largest readings in turn, Tech 3341 cases 11 and 14", () => {
  for (const rateHz of rates) {
    for (const i of twenty) {
      const long = levels(
        [
          [i * 0.15, null],
          [3, i - 38],
          [3 - i * 0.15, null],
        ],
        rateHz,
      );
      expectWithin(shortTermMaxLufs([long, long], rateHz), i - 38, 0.1, "LUFS");
      const short = levels(
        [
          [i * 0.02, null],
          [0.4, i - 38],
          [0.4 - i * 0.02, null],
        ],
        rateHz,
      );
      expectWithin(momentaryMaxLufs([short, short], rateHz), i - 38, 0.1, "LUFS");
    }
  }
});

/** Tech 3341, 2.9: a stereo 1 kHz tone at the alignment level of -18 dBFS reads -18.0 LUFS. */
test("alignment level", () => {
  const tone = sine({ frequencyHz: 1000, peakDbfs: -18, lengthSeconds: 5, rateHz: 48_000 });
  expectWithin(integratedLufs([tone, tone], 48_000), -18, 0.1, "LUFS");
});

/** BS.1770-5, Annex 1: no value without a block above the absolute gate; blocks are 400 ms, and whole. */
test("no loudness below 400 ms, below the gate and in silence", () => {
  const tone = sine({ frequencyHz: 1000, peakDbfs: -20, lengthSeconds: 1, rateHz: 48_000 });
  expect(integratedLufs([tone.subarray(0, 19_199)], 48_000)).toBeNull();
  expectWithin(integratedLufs([tone.subarray(0, 19_200)], 48_000), -23, 0.02, "LUFS");
  expect(integratedLufs([levels([[5, -67.2]], 48_000)], 48_000)).toBeNull();
  expectWithin(integratedLufs([levels([[5, -66.8]], 48_000)], 48_000), -69.8, 0.02, "LUFS");
  expect(integratedLufs([new Float32Array(48_000)], 48_000)).toBeNull();
  expect(momentaryMaxLufs([new Float32Array(48_000)], 48_000)).toBeNull();
  expect(shortTermMaxLufs([tone], 48_000)).toBeNull();
});

function expectCoefficients(actual: BiquadCoefficients, expected: BiquadCoefficients): void {
  for (const key of ["b0", "b1", "b2", "a1", "a2"] as const) expectWithin(actual[key], expected[key], 1e-14);
}

/** Gain of both stages, from the transfer functions. */
function kGainDb(frequencyHz: number, rateHz: number): number {
  const { shelf, highPass } = kWeighting(rateHz);
  const w = (2 * Math.PI * frequencyHz) / rateHz;
  const power = (c0: number, c1: number, c2: number) =>
    (c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w)) ** 2 + (c1 * Math.sin(w) + c2 * Math.sin(2 * w)) ** 2;
  const stage = ({ b0, b1, b2, a1, a2 }: BiquadCoefficients) => power(b0, b1, b2) / power(1, a1, a2);
  return powerToDb(stage(shelf) * stage(highPass));
}
