import { expect, test } from "vitest";
import { noteHz } from "../../src/demo/notes.js";
import { type Pluck, pluckString } from "../../src/demo/pluckedString.js";
import { strikeTine } from "../../src/demo/struckTine.js";
import { expectWithin } from "../within.js";

/**
 * Karplus and Strong, "Digital Synthesis of Plucked-String and Drum Timbres", CMJ 7(2), 1983; Jaffe and Smith,
 * "Extensions of the Karplus-Strong Plucked-String Algorithm", CMJ 7(2), 1983. The expected values are closed forms
 * of what those papers set out to give: the pitch, the decay, and silent partials where the string is plucked.
 */
const rateHz = 48_000;
const pluck = (changes: Partial<Pluck>): Float32Array =>
  pluckString(
    {
      frequencyHz: 110,
      decaySeconds: 6,
      dampAtSeconds: 9,
      dampedSeconds: 0.3,
      lengthSeconds: 4,
      strength: 0.8,
      pickAt: 0.13,
      pickupAt: 0.21,
      seed: 1,
      ...changes,
    },
    rateHz,
  );

/** Amplitude and phase of one frequency from `fromSeconds` on, through a Hann window of whole 0.5 s. */
function partial(samples: Float32Array, frequencyHz: number, fromSeconds: number) {
  const frames = rateHz / 2;
  const start = Math.round(fromSeconds * rateHz);
  let [re, im] = [0, 0];
  for (let n = 0; n < frames; n++) {
    const window = 1 - Math.cos((2 * Math.PI * n) / frames);
    const angle = (2 * Math.PI * frequencyHz * (start + n)) / rateHz;
    re += (window * samples[start + n] * Math.cos(angle)) / frames;
    im -= (window * samples[start + n] * Math.sin(angle)) / frames;
  }
  return { amplitude: 2 * Math.hypot(re, im), radians: Math.atan2(im, re) };
}

/** The phase gained on the wanted frequency in `apartSeconds` is how far off the pitch is. */
function centsOff(samples: Float32Array, frequencyHz: number, apartSeconds: number): number {
  const early = partial(samples, frequencyHz, 0.2).radians;
  const late = partial(samples, frequencyHz, 0.2 + apartSeconds).radians;
  const turn = late - early - 2 * Math.PI * Math.round((late - early) / (2 * Math.PI));
  const offHz = turn / (2 * Math.PI * apartSeconds);
  return 1200 * Math.log2((frequencyHz + offHz) / frequencyHz);
}

/** Every note of a baritone guitar's range that the demo plays, and two between; a cent is what the ear cannot tell. */
test.each(["B1", "E2", "G2", "A2", "B2", "C#3", "D3", "F#3", "A3", "B3", "F#4", "B4"])(
  "%s is in tune within 0.1 cent",
  (note) => {
    const frequencyHz = noteHz(note);
    // Half a second first (a coarse look cannot mistake one turn for none), then two seconds.
    const samples = pluck({ frequencyHz });
    expectWithin(centsOff(samples, frequencyHz, 0.25), 0, 1, "cents");
    expectWithin(centsOff(samples, frequencyHz, 2), 0, 0.1, "cents");
  },
);

test.each([
  [61.74, 9],
  [110, 3],
  [246.94, 1.5],
])("the fundamental of %f Hz falls by 60 dB in %f s", (frequencyHz, decaySeconds) => {
  const samples = pluck({ frequencyHz, decaySeconds });
  const early = partial(samples, frequencyHz, 0.2).amplitude;
  const late = partial(samples, frequencyHz, 1.2).amplitude;
  expectWithin(-60 / (20 * Math.log10(late / early)), decaySeconds, 0.01 * decaySeconds, "s");
});

/** A two-point mean keeps cos(w / 2) a round, and a round takes 1 / f0: closed form, Karplus and Strong 1983. */
test("high partials fade sooner, as the mean of two neighbours says", () => {
  const samples = pluck({});
  for (const k of [5, 12, 20]) {
    const loss = (harmonic: number) => Math.cos((Math.PI * 110 * harmonic) / rateHz);
    const expectedDb = -10 + (20 * Math.log10(loss(k) / loss(1)) * 110 * 1) / 1;
    const late = partial(samples, 110 * k, 1.2).amplitude;
    expectWithin(
      20 * Math.log10(late / partial(samples, 110 * k, 0.2).amplitude),
      expectedDb,
      0.2,
      "dB in 1 s",
    );
  }
});

test("plucked at a fifth of the string, the fifth partial stays silent; so it does for a pickup there", () => {
  // 48 000 / 480: the loop is 479 frames and some, so that a fifth of it is 96 frames to 0.1 %.
  for (const place of [{ pickAt: 0.2 }, { pickupAt: 0.2 }]) {
    const samples = pluck({ frequencyHz: 100, ...place });
    const neighbours = (partial(samples, 400, 0.1).amplitude + partial(samples, 600, 0.1).amplitude) / 2;
    expect(20 * Math.log10(partial(samples, 500, 0.1).amplitude / neighbours)).toBeLessThan(-30);
  }
});

test("a softer pluck is duller, by more than its level", () => {
  const brightness = (strength: number) => {
    const samples = pluck({ strength });
    const [low, high] = [1, 20].map((k) => partial(samples, 110 * k, 0.05).amplitude);
    return 20 * Math.log10(high / low);
  };
  expect(brightness(1) - brightness(0.3)).toBeGreaterThan(6);
});

test("damped, it dies within the damped time; a string that could not ring so long is refused", () => {
  const samples = pluck({ dampAtSeconds: 0.5, dampedSeconds: 0.3 });
  const rms = (from: number) =>
    Math.sqrt(samples.subarray(from, from + 2400).reduce((sum, x) => sum + x * x, 0) / 2400);
  expect(20 * Math.log10(rms(0.9 * rateHz) / rms(0.45 * rateHz))).toBeLessThan(-55);
  expect(() => pluck({ frequencyHz: 4000, decaySeconds: 60 })).toThrow(/cannot ring for 60 s/);
});

/** ISO 16:1975, A4 = 440 Hz; the others are 440 * 2^(k/12), closed form. */
test("notes have their frequencies", () => {
  expect(noteHz("A4")).toBe(440);
  expectWithin(noteHz("B1"), 61.7354, 1e-4, "Hz");
  expectWithin(noteHz("C4"), 261.6256, 1e-4, "Hz");
  expect(() => noteHz("H2")).toThrow(RangeError);
});

/**
 * Chowning, "The Synthesis of Complex Audio Spectra by Means of Frequency Modulation", JAES 21(7), 1973: with carrier
 * and modulator at one frequency, side bands below zero fold back: harmonic k is J_(k-1)(I) + (-1)^k J_(k+1)(I).
 */
test("the electric piano's harmonics are those of frequency modulation", () => {
  const frequencyHz = 110;
  const samples = strikeTine({ frequencyHz, heldSeconds: 3, lengthSeconds: 3, strength: 1 }, rateHz);
  const fromSeconds = 0.6;
  // Over the window the index, 3 at the start, falls by 60 dB in 7 s, and the level by 60 dB in 9 s.
  const harmonic = (k: number) => {
    let sum = 0;
    for (let part = 0; part < 1; part += 0.02) {
      const seconds = fromSeconds + part / 2;
      const index = 3 * 0.001 ** (seconds / 7);
      const weight = (1 - Math.cos(2 * Math.PI * part)) * 0.001 ** (seconds / 9);
      sum += weight * (bessel(k - 1, index) + (-1) ** k * bessel(k + 1, index));
    }
    return sum;
  };
  const first = partial(samples, frequencyHz, fromSeconds).amplitude;
  for (const k of [2, 3, 4]) {
    const ratio = partial(samples, k * frequencyHz, fromSeconds).amplitude / first;
    expectWithin(ratio / (harmonic(k) / harmonic(1)), 1, 0.005, `of harmonic ${k}`);
  }
});

/** J_n(x) by its integral, (1 / pi) times that of cos(n t - x sin t) from 0 to pi. */
function bessel(n: number, x: number): number {
  const steps = 200;
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    const t = (Math.PI * (k + 0.5)) / steps;
    sum += Math.cos(n * t - x * Math.sin(t)) / steps;
  }
  return sum;
}
