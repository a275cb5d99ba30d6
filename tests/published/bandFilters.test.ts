import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readClip } from "../../src/node/audio/readClip.js";
import { AnalysisFft } from "../../src/sound/dsp/analysisFft.js";
import { octavesMeasure, thirdsMeasure } from "../../src/sound/measure/bands.js";
import { FactsMeter } from "../../src/sound/measure/factsMeter.js";
import { sine } from "../signals.js";
import { faded, mix } from "../sound/measure/testTones.js";

/*
 * The judge: filters in time, linear in phase: the difference of two low-passes under a Kaiser window (J. F. Kaiser,
 * "Nonrecursive digital filter design using the I0-sinh window function", Proc. IEEE ISCAS, 1974), convolved with the whole
 * recording; exact edges of IEC 61260-1:2014, 5.2 to 5.6, from its formula and not from the tables of the program.
 */
const rateHz = 44_100;
const size = 2 ** 20;
const seconds = 4;
const stopDb = 75;
const fft = new AnalysisFft(size);

/** Edges of the band at 1000 * 10^(tenths / 10) Hz that is so many tenths of a decade wide. */
const edgesOf = (tenths: number, wide: number) =>
  [-1, 1].map((side) => 1000 * 10 ** ((2 * tenths + side * wide) / 20)) as [number, number];

const octaves = Array.from({ length: 9 }, (_, n) => ({
  tenths: 3 * (n - 5),
  edges: edgesOf(3 * (n - 5), 3),
}));
const thirds = Array.from({ length: 29 }, (_, n) => ({ tenths: n - 16, edges: edgesOf(n - 16, 1) }));

function besselI0(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; k < 60; k++) {
    term *= (x / 2 / k) ** 2;
    sum += term;
  }
  return sum;
}

/** Taps of a band-pass whose skirts are 0.4 Hz wide, or 0.1 % of its lower edge; centred about entry 0 of a circle. */
function bandPass([lowHz, highHz]: [number, number]): Float64Array {
  const wide = (2 * Math.PI * Math.max(0.4, lowHz / 1000)) / rateHz;
  const half = Math.ceil((stopDb - 7.95) / (2.285 * wide) / 2);
  const beta = 0.1102 * (stopDb - 8.7);
  const taps = new Float64Array(size);
  for (let n = -half; n <= half; n++) {
    const sinc = (hz: number) =>
      n === 0 ? (2 * hz) / rateHz : Math.sin((2 * Math.PI * hz * n) / rateHz) / (Math.PI * n);
    const window = besselI0(beta * Math.sqrt(1 - (n / half) ** 2)) / besselI0(beta);
    taps[n < 0 ? size + n : n] = window * (sinc(highHz) - sinc(lowHz));
  }
  return taps;
}

const all = [...octaves, ...thirds];

/** H of two filters at k * rateHz / size: taps that are the same either way have a real spectrum, so one transform does for two. */
function responses(one: [number, number], other: [number, number]): [Float64Array, Float64Array] {
  const parts: [Float64Array, Float64Array] = [bandPass(one), bandPass(other)];
  fft.forward(...parts);
  return parts;
}

interface Filter {
  readonly from: number;
  /** |H|^2 at (from + k) * rateHz / size; beyond, it is under -75 dB. */
  readonly power: Float64Array;
}
const filters = all.flatMap((band, n): Filter[] => {
  const next = all[n + 1] ?? band;
  if (n % 2 === 1) return [];
  return responses(band.edges, next.edges)
    .slice(0, next === band ? 1 : 2)
    .map((h, k) => {
      const [from, to] = all[n + k].edges.map((hz) => (hz * size) / rateHz);
      const first = Math.floor(from * 0.95);
      return { from: first, power: h.slice(first, Math.ceil(to * 1.05)).map((x) => x * x) };
    });
});

/** IEC 61260-1:2014, 5.10, Table 1, class 1, from memory: relative attenuation of octave filters, at least and at most, dB. */
const classOne: readonly (readonly [octavesOff: number, least: number, most: number])[] = [
  [0, -0.4, 0.4],
  [1 / 8, -0.4, 0.5],
  [1 / 4, -0.4, 0.7],
  [3 / 8, -0.4, 1.4],
  [1, 16.6, Number.POSITIVE_INFINITY],
  [2, 40.5, Number.POSITIVE_INFINITY],
  [3, 60, Number.POSITIVE_INFINITY],
  [4, 70, Number.POSITIVE_INFINITY],
];

test.each([
  [octaves[1], 1],
  [octaves[5], 1],
  [thirds[0], 1 / 3],
  [thirds[16], 1 / 3],
])("the judge is of class 1, band %#", ({ tenths, edges }, shareOfOctave) => {
  const [h] = responses(edges, edges);
  for (const [off, least, most] of classOne) {
    for (const side of [-1, 1]) {
      const hz = 1000 * 10 ** (tenths / 10 + 0.3 * side * off * shareOfOctave);
      if (hz > rateHz / 2) continue;
      const db = -20 * Math.log10(Math.abs(h[Math.round((hz * size) / rateHz)]));
      expect(db, `${hz} Hz`).toBeGreaterThanOrEqual(least);
      expect(db, `${hz} Hz`).toBeLessThanOrEqual(most);
    }
  }
});

/** Energy of a whole recording through each filter. */
function judged(sound: Float32Array): number[] {
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  re.set(sound);
  fft.forward(re, im);
  // Each bin stands for its mirror too.
  return filters.map(({ from, power }) =>
    power.reduce((sum, h, k) => sum + (2 * h * (re[from + k] ** 2 + im[from + k] ** 2)) / size, 0),
  );
}

const sampleFile = (name: string) =>
  createRequire(import.meta.url).resolve(`supersonic-scsynth-samples/samples/${name}.flac`);

async function recording(file: string): Promise<Float32Array> {
  const clip = await readClip(file, { allowTruncated: false });
  return clip.channels[0].slice(0, seconds * rateHz);
}

/** A low E and a low B of a five-string bass, which the thirds at 40 and 31.5 Hz hold, and a soft octave over them. */
function lowNotes(): Float32Array {
  const tone = (frequencyHz: number, peakDbfs: number) =>
    faded(sine({ frequencyHz, peakDbfs, rateHz, lengthSeconds: seconds }), rateHz, 0.3);
  return mix(mix(tone(30.87, -6), 1, tone(41.2, -8), 1), 1, tone(61.74, -50), 1);
}

/** Half a decibel, for all bands within 60 dB of the loudest. */
test.each(["ferry-road", "guit_em9", "guit_e_fifths", "bass_thick_c", "bd_808", "ambi_piano", "low notes"])(
  "%s: octaves and third octaves as filters in time have them",
  async (name) => {
    const takes = fileURLToPath(new URL("../../fixtures/takes/", import.meta.url));
    const sound =
      name === "low notes"
        ? lowNotes()
        : await recording(name === "ferry-road" ? `${takes}${name}.wav` : sampleFile(name));
    const meter = new FactsMeter(rateHz, ["spectrum"]);
    meter.push(sound, sound, sound.length);
    const facts = meter.facts();
    const levels = [
      ...octavesMeasure.find(facts).value.slice(0, octaves.length),
      ...thirdsMeasure.find(facts).value.slice(0, thirds.length),
    ];
    const energies = judged(sound);
    const loudest = Math.max(...energies);
    const apart = levels.flatMap(({ centreHz, levelDb }, n) => {
      if (energies[n] < 1e-6 * loudest) return [];
      const db = (levelDb ?? 0) - 10 * Math.log10(energies[n] / sound.length);
      return Math.abs(db) > 0.5
        ? [`${n < octaves.length ? "octave" : "third"} ${centreHz} Hz: ${db.toFixed(2)} dB`]
        : [];
    });
    expect(energies.filter((energy) => energy >= 1e-6 * loudest).length).toBeGreaterThan(3);
    expect(apart).toEqual([]);
  },
);
