import { expect, test } from "vitest";
import { octavesMeasure, thirdsMeasure } from "../../src/sound/measure/bands.js";
import { centroidMeasure } from "../../src/sound/measure/centroid.js";
import { FactsMeter } from "../../src/sound/measure/factsMeter.js";
import { octaveBands, thirdOctaveBands } from "../../src/sound/measure/isoBands.js";
import { stereoSpectrum } from "../../src/sound/measure/spectrum.js";
import { tiltMeasure } from "../../src/sound/measure/tilt.js";
import { worstFoldDownMeasure } from "../../src/sound/measure/worstFoldDown.js";
import { noise, sine } from "../signals.js";
import { faded, mix, shapedNoise } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;

/** IEC 61260-1:2014, 5.2 to 5.6, base ten: exact centres and edges; ISO 266:1997: nominal ones within 1 % of them. */
test("centres and edges", () => {
  const exact = [
    31.6228, 63.0957, 125.8925, 251.1886, 501.1872, 1000, 1995.2623, 3981.0717, 7943.2823, 15848.9319,
  ];
  octaveBands.forEach((band, k) => {
    expectWithin(band.exactCentreHz, exact[k], 0.0001, "Hz");
    expectWithin(band.highHz / band.exactCentreHz, 1.412538, 1e-6);
    expectWithin(band.exactCentreHz / band.lowHz, 1.412538, 1e-6);
  });
  const edges = (centreHz: number) => thirdOctaveBands.find((band) => band.centreHz === centreHz);
  expectWithin(edges(100)?.lowHz ?? null, 89.125, 0.001, "Hz");
  expectWithin(edges(100)?.highHz ?? null, 112.202, 0.001, "Hz");
  expectWithin(edges(1000)?.lowHz ?? null, 891.251, 0.001, "Hz");
  expectWithin(edges(10_000)?.highHz ?? null, 11220.2, 0.1, "Hz");
  for (const { centreHz, exactCentreHz } of [...octaveBands, ...thirdOctaveBands]) {
    expectWithin(centreHz / exactCentreHz, 1, 0.0096);
  }
});

/** A sine at each centre of ISO 266 has its energy in that band: a mean square of 1/2, -3.01 dB. */
test.each([44_100, 48_000, 69_313])("a sine at each centre lands in its band, at %d Hz", (anyRateHz) => {
  for (const [k, { centreHz, highHz }] of octaveBands.entries()) {
    if (highHz > anyRateHz / 2) continue;
    const { levels, wholeDb } = read(centreHz, anyRateHz, octavesMeasure);
    expect(levels.indexOf(Math.max(...levels)), `${centreHz} Hz`).toBe(k);
    expectWithin(levels[k], wholeDb, centreHz < 50 ? 0.1 : 0.02, "dB");
  }
  for (const [k, { centreHz, highHz }] of thirdOctaveBands.entries()) {
    if (highHz > anyRateHz / 2) continue;
    const { levels, wholeDb } = read(centreHz, anyRateHz, thirdsMeasure);
    expect(levels.indexOf(Math.max(...levels)), `${centreHz} Hz`).toBe(k);
    expectWithin(levels[k], wholeDb, centreHz < 100 ? 1 : 0.1, "dB");
  }
});

/** IEC 61260-1:2014, 5.10, Table 1: attenuation two and three octaves away, class 1: at least 40.5 and 60 dB. */
test("bands two and three octaves away hear nothing", () => {
  for (const centreHz of [125, 1000, 4000]) {
    const { levels } = read(centreHz, rateHz, octavesMeasure);
    const k = levels.indexOf(Math.max(...levels));
    for (const [apart, leastDb] of [
      [2, 40.5],
      [3, 60],
    ]) {
      if (k - apart >= 0) expect(levels[k] - levels[k - apart]).toBeGreaterThan(leastDb);
      if (k + apart < levels.length) expect(levels[k] - levels[k + apart]).toBeGreaterThan(leastDb);
    }
  }
});

/** Closed form: white noise rises by 3.01 dB an octave and 1.00 dB a third; its density is level. */
test("white noise", () => {
  const facts = factsOf(
    noise({ seed: 1, frames: 30 * rateHz }),
    noise({ seed: 2, frames: 30 * rateHz }),
    rateHz,
  );
  const octaves = octavesMeasure.find(facts).value.slice(3);
  for (let k = 1; k < octaves.length; k++) {
    expectWithin(levelOf(octaves[k]) - levelOf(octaves[k - 1]), 3.01, 0.15, "dB");
  }
  const thirds = thirdsMeasure.find(facts).value.slice(12);
  for (let k = 1; k < thirds.length; k++)
    expectWithin(levelOf(thirds[k]) - levelOf(thirds[k - 1]), 1, 0.2, "dB");
  expectWithin(tiltMeasure.find(facts).value, 0, 0.05, "dB");
  expectWithin(centroidMeasure.find(facts).value, (50 + 16_000) / 2, 20, "Hz");
});

/** Closed form: pink noise (power 1/f, made exactly so) is equal in all bands; density -3.01 dB an octave. */
test("pink noise", () => {
  const pink = shapedNoise(2 ** 20, 9, (k) => 1000 / Math.sqrt(k));
  const facts = factsOf(pink, pink, rateHz);
  const octaves = octavesMeasure.find(facts).value.map(levelOf);
  for (const level of octaves) expectWithin(level, octaves[5], 0.1, "dB");
  const thirds = thirdsMeasure.find(facts).value.map(levelOf);
  for (const level of thirds.slice(3)) expectWithin(level, thirds[16], 0.2, "dB");
  expectWithin(tiltMeasure.find(facts).value, -3.0103, 0.03, "dB");
  expectWithin(centroidMeasure.find(facts).value, (16_000 - 50) / Math.log(16_000 / 50), 10, "Hz");
});

/** Closed form, as for the whole take: a low band in phase, a middle one 90 degrees apart, a high one opposite. */
test("each band has its own stereo", () => {
  const low = (phaseDegrees: number) => tone(125, phaseDegrees);
  const left = sum(low(0), tone(1000, 0), tone(4000, 0));
  const right = sum(low(0), tone(1000, 90), tone(4000, 180));
  const facts = factsOf(left, right, rateHz);
  const at = (centreHz: number) =>
    octavesMeasure.find(facts).value.find((band) => band.centreHz === centreHz);
  expectWithin(at(125)?.correlation ?? null, 1, 1e-6);
  expectWithin(at(1000)?.correlation ?? null, 0, 1e-3);
  expectWithin(at(4000)?.correlation ?? null, -1, 1e-6);
  expectWithin(at(125)?.sideShare ?? null, 0, 1e-6);
  expectWithin(at(1000)?.sideShare ?? null, 0.5, 1e-3);
  expectWithin(at(4000)?.sideShare ?? null, 1, 1e-6);
  expectWithin(at(125)?.foldDownLossDb ?? null, 0, 1e-5, "dB");
  expectWithin(at(1000)?.foldDownLossDb ?? null, 3.0103, 0.01, "dB");
  expect(worstFoldDownMeasure.find(facts).value).toBe(4000);
});

/** Parseval: the bins add up to the energy in time, whatever the length. */
test.each([1, 100, 16_384, 50_001])("no energy is lost or gained, %i frames", (frames) => {
  const left = noise({ seed: 5, frames });
  const right = mix(left, 0.3, noise({ seed: 6, frames }), 0.6);
  const spectrum = stereoSpectrum(left, right, rateHz);
  const total = (values: ArrayLike<number>) => Array.from(values).reduce((a, b) => a + b, 0);
  const products = (a: Float32Array, b: Float32Array) => a.reduce((s, x, n) => s + x * b[n], 0);
  expectWithin(total(spectrum.left) / products(left, left), 1, 1e-9);
  expectWithin(total(spectrum.right) / products(right, right), 1, 1e-9);
  expectWithin(total(spectrum.crossReal) - products(left, right), 0, 1e-9 * products(left, left));
});

/** The 16 kHz octave and the 20 kHz third end at 22 387 Hz: they need a rate above 44.774 kHz. */
test("a band that does not end below half the rate has no level", () => {
  const facts = factsOf(noise({ seed: 7, frames: 44_100 }), noise({ seed: 8, frames: 44_100 }), 44_100);
  expect(
    octavesMeasure
      .find(facts)
      .value.filter(({ levelDb }) => levelDb === null)
      .map(({ centreHz }) => centreHz),
  ).toEqual([16_000]);
  expect(
    thirdsMeasure
      .find(facts)
      .value.filter(({ levelDb }) => levelDb === null)
      .map(({ centreHz }) => centreHz),
  ).toEqual([20_000]);
});

function read(frequencyHz: number, anyRateHz: number, measure: typeof octavesMeasure | typeof thirdsMeasure) {
  const wave = faded(sine({ frequencyHz, rateHz: anyRateHz, lengthSeconds: 2.5 }), anyRateHz, 0.05);
  const facts = factsOf(wave, wave, anyRateHz);
  const wholeDb = 10 * Math.log10(wave.reduce((sum, x) => sum + x * x, 0) / wave.length);
  expectWithin(wholeDb, -3.01, 0.12, "dB");
  return {
    wholeDb,
    levels: measure.find(facts).value.map(({ levelDb }) => levelDb ?? Number.NEGATIVE_INFINITY),
  };
}

const levelOf = ({ levelDb }: { levelDb: number | null }): number => levelDb ?? Number.NaN;

const tone = (frequencyHz: number, phaseDegrees: number) =>
  faded(sine({ frequencyHz, phaseDegrees, rateHz, lengthSeconds: 2, peakDbfs: -12 }), rateHz, 0.1);

const sum = (a: Float32Array, b: Float32Array, c: Float32Array) => mix(mix(a, 1, b, 1), 1, c, 1);

function factsOf(left: Float32Array, right: Float32Array, anyRateHz: number) {
  const meter = new FactsMeter(anyRateHz, ["spectrum"]);
  meter.push(left, right, left.length);
  return meter.facts();
}
