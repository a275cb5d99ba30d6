import { expect, test } from "vitest";
import { balanceDb } from "../../src/sound/measure/balance.js";
import { correlation } from "../../src/sound/measure/correlation.js";
import { correlationOverTime } from "../../src/sound/measure/correlationOverTime.js";
import { sideShare, sideToMidDb } from "../../src/sound/measure/sideShare.js";
import { stereoEnergies } from "../../src/sound/measure/stereoSums.js";
import { noise, sine } from "../signals.js";
import { mix, shapedNoise } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;
const tone = { frequencyHz: 1000, rateHz, lengthSeconds: 1 };

/** Closed form: sines of one frequency, `phase` apart, over whole periods: correlation cos(phase). */
test("sines apart in phase correlate by the cosine of it", () => {
  for (let phaseDegrees = 0; phaseDegrees <= 180; phaseDegrees += 7.5) {
    const [left, right] = [sine(tone), sine({ ...tone, phaseDegrees })];
    const rho = Math.cos((phaseDegrees * Math.PI) / 180);
    expectWithin(correlation(left, right), rho, 1e-6);
    expectWithin(sideShare(left, right), (1 - rho) / 2, 1e-6);
    if (phaseDegrees > 0 && phaseDegrees < 180) {
      expectWithin(sideToMidDb(left, right), 10 * Math.log10((1 - rho) / (1 + rho)), 1e-4, "dB");
    }
    expectWithin(correlationOverTime(left, right, rateHz)?.median ?? null, rho, 1e-6);
  }
});

/** Closed form, L = a S + b N1, R = c S + d N2, all independent: a c / sqrt((a^2 + b^2)(c^2 + d^2)). */
test.each([
  [1, 0, 1, 0],
  [1, 1, 1, 1],
  [1, 0.5, 0.3, 0.8],
  [0.7, 1, -0.7, 1],
  [0, 1, 0, 1],
])("shared and own noise, %d %d %d %d", (a, b, c, d) => {
  const frames = 400_000;
  const [shared, own, other] = [11, 12, 13].map((seed) => noise({ seed, frames }));
  const rho = (a * c) / Math.sqrt((a * a + b * b) * (c * c + d * d));
  // Standard deviation of the estimate: (1 - rho^2) / sqrt(frames); four of them, and the third noise's share.
  expectWithin(correlation(mix(shared, a, own, b), mix(shared, c, other, d)), rho, 6.5 / Math.sqrt(frames));
});

/** Closed form: no mean is removed, so 0.5 added to two unit noises makes 0.25 / 1.25. */
test("a steady offset counts as likeness", () => {
  const [left, right] = [21, 22].map((seed) => noise({ seed, frames: 400_000, rms: 1 }).map((x) => x + 0.5));
  expectWithin(correlation(left, right), 0.2, 0.01);
});

/** Closed form: a gain between the sides leaves correlation 1 and makes side share (1-g)^2 / (2 (1+g^2)). */
test.each([
  [1, 0.0033],
  [3, 0.0284],
  [6, 0.0994],
])("%d dB between the sides", (differenceDb, expectedShare) => {
  const left = noise({ seed: 31, frames: 48_000 });
  const right = left.map((x) => x * 10 ** (-differenceDb / 20));
  expectWithin(correlation(left, right), 1, 1e-9);
  expectWithin(sideShare(left, right), expectedShare, 0.00005);
  expectWithin(balanceDb(left, right), differenceDb, 1e-5, "dB");
});

/** Closed form: a white band 0..B and its copy tau later correlate by sin(2 pi B tau) / (2 pi B tau). */
test.each([1, 2, 3, 5])("a delayed copy of a band, %i frames late", (frames) => {
  const size = 2 ** 16;
  const band = shapedNoise(size, 41, (k) => (k <= size / 8 ? 1000 : 0));
  const late = band.map((_, n) => band[(n + size - frames) % size]);
  const x = 2 * Math.PI * 0.125 * frames;
  expectWithin(correlation(band, late), Math.sin(x) / x, 2e-4);
});

/** Closed form, gains 1 + m sin on one source, LFOs phi apart: (1 + m^2/2 cos phi) / (1 + m^2/2). */
test.each([
  [1, 90, 2 / 3],
  [1, 180, 1 / 3],
  [0.5, 180, 0.7778],
])("stereo tremolo of depth %d, %i degrees apart", (m, phaseDegrees, expected) => {
  const lfo = { frequencyHz: 4, rateHz, lengthSeconds: 2 };
  const source = sine({ ...lfo, frequencyHz: 997 });
  const [left, right] = [0, phaseDegrees].map((phase) => {
    const swing = sine({ ...lfo, phaseDegrees: phase });
    return source.map((x, n) => x * (1 + m * swing[n]));
  });
  expectWithin(correlation(left, right), expected, 1e-4);
});

/** Closed form: E(M) + E(S) = E(L) + E(R); side share (1 - q rho) / 2 with q = 2 sqrt(EL ER) / (EL + ER). */
test("side share identity", () => {
  const left = noise({ seed: 51, frames: 10_000 });
  const right = mix(left, 0.4, noise({ seed: 52, frames: 10_000 }), 0.7);
  const energies = stereoEnergies(left, right);
  expectWithin((energies.mid + energies.side) / (energies.left + energies.right), 1, 1e-12);
  const q = (2 * Math.sqrt(energies.left * energies.right)) / (energies.left + energies.right);
  expectWithin(sideShare(left, right), (1 - q * (correlation(left, right) ?? Number.NaN)) / 2, 1e-12);
});

/** Closed form: turning one side over swaps middle and side, and the sign of correlation. */
test("opposite polarity", () => {
  const left = noise({ seed: 61, frames: 10_000 });
  const right = mix(left, 0.6, noise({ seed: 62, frames: 10_000 }), 0.5);
  const turned = right.map((x) => -x);
  expectWithin(correlation(left, turned), -(correlation(left, right) ?? Number.NaN), 1e-12);
  expectWithin(sideShare(left, turned), 1 - (sideShare(left, right) ?? Number.NaN), 1e-12);
  for (let seed = 63; seed < 83; seed++) {
    const mono = noise({ seed, frames: 1000 });
    expect(correlation(mono, mono)).toBe(1);
  }
  expect(sideShare(left, left)).toBe(0);
  expect(sideToMidDb(left, left)).toBe(Number.NEGATIVE_INFINITY);
  expect(
    sideShare(
      left,
      left.map((x) => -x),
    ),
  ).toBe(1);
});
