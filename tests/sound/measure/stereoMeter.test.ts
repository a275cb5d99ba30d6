import fc from "fast-check";
import { expect, test } from "vitest";
import { correlation } from "../../../src/sound/measure/correlation.js";
import { foldDownLossDb } from "../../../src/sound/measure/foldDown.js";
import { iacc } from "../../../src/sound/measure/iacc.js";
import { integratedLufs } from "../../../src/sound/measure/loudness.js";
import { loudnessRangeLu } from "../../../src/sound/measure/loudnessRange.js";
import type { SoundMeasures } from "../../../src/sound/measure/measures.js";
import { sideShare } from "../../../src/sound/measure/sideShare.js";
import { measureClip, StereoMeter } from "../../../src/sound/measure/stereoMeter.js";
import { truePeakDbtp } from "../../../src/sound/measure/truePeak.js";
import { noise, randomNumbers } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { levels, mix } from "./testTones.js";

/** A law that must hold: how a stream is cut does not show in the result, to the bit. */
test("push sizes do not matter", () => {
  for (const rateHz of [8_000, 44_100, 69_313]) {
    const [left, right] = anyStereo(3, Math.round(2.3 * rateHz));
    const whole = measureClip({ rateHz, channels: [left, right] });
    for (const size of [1, 7, 511, 65_536]) {
      expect(
        pushed(left, right, rateHz, () => size),
        `pushes of ${size}`,
      ).toEqual(whole);
    }
    const next = randomNumbers(8);
    expect(pushed(left, right, rateHz, () => 1 + Math.floor(3000 * next() ** 4))).toEqual(whole);
  }
});

test("a result may be asked for on the way", () => {
  const [left, right] = anyStereo(4, 100_000);
  const meter = new StereoMeter(48_000);
  for (let from = 0; from < 100_000; from += 25_000) {
    meter.push(left.subarray(from), right.subarray(from), 25_000);
    meter.result();
  }
  expect(meter.result()).toEqual(measureClip({ rateHz: 48_000, channels: [left, right] }));
});

/** A law that must hold: one array given for both sides takes a shorter way to the same figures, also up to a turn to stereo. */
test("one array for both sides measures as two equal ones", () => {
  const rateHz = 44_100;
  const [left, right] = anyStereo(6, 3 * rateHz);
  const crest = rateHz / 4;
  const slow = Float32Array.from({ length: rateHz }, (_, n) => 0.5 * Math.sin((2 * Math.PI * n) / rateHz));
  const louder = slow.map((x) => 1.01 * x);
  expectTurnAlike(slow, louder, crest);
  for (const monoFrames of [left.length, 7, 20_000, 65_536]) expectTurnAlike(left, right, monoFrames);

  function expectTurnAlike(left: Float32Array, right: Float32Array, monoFrames: number): void {
    const turning = Float32Array.from(right, (x, n) => (n < monoFrames ? left[n] : x));
    const meter = new StereoMeter(rateHz);
    const start = left.slice(0, monoFrames);
    meter.push(start, start, monoFrames);
    meter.push(left.subarray(monoFrames), turning.subarray(monoFrames), left.length - monoFrames);
    expectAlike(meter.result(), measureClip({ rateHz, channels: [left, turning] }));
  }
});

/** As much as rounding in doubles allows. */
function expectAlike(found: unknown, wanted: unknown): void {
  if (typeof wanted === "number") expect(found).toBeCloseTo(wanted, 9);
  else if (typeof wanted !== "object" || wanted === null) expect(found).toEqual(wanted);
  else for (const [key, value] of Object.entries(wanted)) expectAlike(Object(found)[key], value);
}

test("fields are those of the functions over whole samples", () => {
  const rateHz = 44_100;
  const [left, right] = anyStereo(5, 5 * rateHz);
  const all = measureClip({ rateHz, channels: [left, right] });
  expect(all.correlation).toBe(correlation(left, right));
  expect(all.sideShare).toBe(sideShare(left, right));
  expect(all.iacc).toBe(iacc(left, right, rateHz));
  expect(all.foldDownLossDb).toBe(foldDownLossDb(left, right, rateHz));
  expect(all.integratedLufs).toBe(integratedLufs([left, right], rateHz));
  expect(all.loudnessRangeLu).toBe(loudnessRangeLu([left, right], rateHz));
  expect(all.truePeakDbtp).toBe(truePeakDbtp([left, right], rateHz));
});

/** Laws that must hold for any sound: ranges, no NaN, swapped sides, gain, one side turned over. */
test("ranges and symmetries", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1e9 }), fc.integer({ min: 0, max: 40_000 }), (seed, frames) => {
      const rateHz = 8_000;
      const [left, right] = anyStereo(seed, frames);
      const all = measureClip({ rateHz, channels: [left, right] });
      expectSound(all);
      const swapped = measureClip({ rateHz, channels: [right, left] });
      expectNear(swapped.correlation, all.correlation);
      expectNear(swapped.iacc, all.iacc);
      expectNear(swapped.sideShare, all.sideShare);
      expectNear(swapped.foldDownLossDb, all.foldDownLossDb);
      expectNear(swapped.integratedLufs, all.integratedLufs);
      expectNear(swapped.truePeakDbtp, all.truePeakDbtp);
      expectNear(swapped.balanceDb, all.balanceDb === null ? null : -all.balanceDb);
      const turned = measureClip({ rateHz, channels: [left, right.map((x) => -x)] });
      expectNear(turned.correlation, all.correlation === null ? null : -all.correlation);
      expectNear(turned.iacc, all.iacc);
      expectNear(turned.sideShare, all.sideShare === null ? null : 1 - all.sideShare);
      const halved = measureClip({ rateHz, channels: [left.map((x) => x / 2), right.map((x) => x / 2)] });
      expectNear(halved.correlation, all.correlation);
      expectNear(halved.truePeakDbtp, all.truePeakDbtp === null ? null : all.truePeakDbtp - 6.0206);
      expectNear(halved.tiltDbPerOctave, all.tiltDbPerOctave);
    }),
    { numRuns: 16 },
  );
});

test("mono: no side, nothing lost", () => {
  const sound = noise({ seed: 6, frames: 200_000 });
  const mono = measureClip({ rateHz: 48_000, channels: [sound] });
  expect(mono).toEqual(measureClip({ rateHz: 48_000, channels: [sound, sound] }));
  expect(mono).toMatchObject({
    correlation: 1,
    sideShare: 0,
    sideToMidDb: null,
    balanceDb: 0,
    foldDownLossDb: 0,
  });
  expect(mono).toMatchObject({
    worstFoldDownHz: null,
    correlationOverTime: { median: 1, shareBelowZero: 0 },
  });
  expect(mono.reasons.sideToMidDb).toBe("there is no side: mono");
  expect(mono.reasons.worstFoldDownHz).toBe("no band loses anything in mono");
});

test("opposite polarity: no middle, and nothing left in mono", () => {
  const sound = noise({ seed: 7, frames: 200_000 });
  const opposite = measureClip({ rateHz: 48_000, channels: [sound, sound.map((x) => -x)] });
  expect(opposite).toMatchObject({ correlation: -1, sideShare: 1, sideToMidDb: null, foldDownLossDb: null });
  expect(opposite.worstFoldDownHz).not.toBeNull();
  expect(opposite.reasons.foldDownLossDb).toBe("left and right cancel entirely in mono");
  expect(opposite.reasons["bands.foldDownLossDb"]).toMatch(/^31\.5, 63, .*cancel entirely in mono$/);
});

test("bands without a value say why", () => {
  const sound = noise({ seed: 10, frames: 44_100 });
  const { reasons } = measureClip({ rateHz: 44_100, channels: [sound, new Float32Array(44_100)] });
  expect(reasons["bands.levelDb"]).toBe("16000 Hz: ends above half the rate, 22050 Hz");
  expect(reasons["thirds.levelDb"]).toBe("20000 Hz: ends above half the rate, 22050 Hz");
  expect(reasons["bands.correlation"]).toMatch(/^31\.5, 63, .* 8000 Hz: one side is silent there$/);
  expect(reasons["bands.sideShare"]).toBeUndefined();
  const silence = measureClip({ rateHz: 8_000, channels: [new Float32Array(8_000)] });
  expect(silence.reasons["bands.levelDb"]).toBe(
    "4000, 8000, 16000 Hz: ends above half the rate, 4000 Hz; 31.5, 63, 125, 250, 500, 1000, 2000 Hz: silent",
  );
});

test("silence, no sound, one silent side and a short sound say why they are empty", () => {
  const silence = measureClip({ rateHz: 48_000, channels: [new Float32Array(200_000)] });
  expectSound(silence);
  expect(silence).toMatchObject({
    correlation: null,
    integratedLufs: null,
    truePeakDbtp: null,
    centroidHz: null,
  });
  expect(silence.reasons.correlation).toBe("the sound is silent");
  const nothing = measureClip({ rateHz: 48_000, channels: [] });
  expectSound(nothing);
  expect(nothing.reasons.integratedLufs).toBe("there is no sound: 0 frames");
  const sound = noise({ seed: 8, frames: 200_000 });
  const oneSided = measureClip({ rateHz: 48_000, channels: [sound, new Float32Array(200_000)] });
  expectSound(oneSided);
  expect(oneSided).toMatchObject({ correlation: null, iacc: null, balanceDb: null, sideShare: 0.5 });
  expect(oneSided.reasons).toMatchObject({
    correlation: "the right channel is silent",
    balanceDb: "the right channel is silent",
  });
  const short = measureClip({ rateHz: 48_000, channels: [sound.subarray(0, 19_000)] });
  expectSound(short);
  expect(short).toMatchObject({ integratedLufs: null, correlation: 1 });
  expect(short.reasons.integratedLufs).toBe("the sound lasts 0.396 s; this takes 0.4 s");
});

/** A second without sound between notes must not slow the filters down, nor change what is read after it. */
test("rests read as rests", () => {
  const notes = levels(
    [
      [1, -20],
      [20, null],
      [1, -20],
    ],
    8_000,
    440,
  );
  const { integratedLufs: lufs, momentaryMaxLufs } = measureClip({ rateHz: 8_000, channels: [notes] });
  const alone = measureClip({ rateHz: 8_000, channels: [notes.subarray(0, 8_000)] });
  expectWithin(lufs, alone.integratedLufs ?? Number.NaN, 0.9, "LUFS");
  expectWithin(momentaryMaxLufs, alone.momentaryMaxLufs ?? Number.NaN, 0.01, "LUFS");
});

test.each([Number.NaN, Number.POSITIVE_INFINITY])("a sample of %d is refused", (sample) => {
  const sound = noise({ seed: 9, frames: 1000 });
  sound[500] = sample;
  expect(() => measureClip({ rateHz: 48_000, channels: [sound] })).toThrow(RangeError);
});

function pushed(left: Float32Array, right: Float32Array, rateHz: number, size: () => number): SoundMeasures {
  const meter = new StereoMeter(rateHz);
  for (let from = 0; from < left.length; ) {
    const frames = Math.min(size(), left.length - from);
    meter.push(left.subarray(from), right.subarray(from), frames);
    from += frames;
  }
  return meter.result();
}

/** Every number is finite and in its range; every empty field has its reason. */
function expectSound(all: SoundMeasures): void {
  expect(
    JSON.stringify(all, (_key, value) =>
      typeof value === "number" && !Number.isFinite(value) ? "bad" : value,
    ),
  ).not.toContain('"bad"');
  expectBetween(all.correlation, -1, 1);
  expectBetween(all.iacc, 0, 1);
  expectBetween(all.sideShare, 0, 1);
  expectBetween(all.loudnessRangeLu, 0, 60);
  expectBetween(all.centroidHz, 50, 16_000);
  for (const value of all.correlationOverTime?.values ?? []) expectBetween(value, -1, 1);
  for (const band of all.bands) {
    expectBetween(band.correlation, -1, 1);
    expectBetween(band.sideShare, 0, 1);
    expectBetween(band.foldDownLossDb, -1e-9, 120);
  }
  for (const [field, value] of Object.entries(all))
    if (value === null) expect(all.reasons[field]).toMatch(/\w/);
}

function expectBetween(value: number | null, least: number, most: number): void {
  if (value !== null) expect(value >= least && value <= most, `${value} in ${least}..${most}`).toBe(true);
}

function expectNear(actual: number | null, expected: number | null): void {
  if (expected === null) expect(actual).toBeNull();
  else expectWithin(actual, expected, 1e-5);
}

/** Noise and tones in common and apart, in shares by chance; at times with a silent or a mono stretch. */
function anyStereo(seed: number, frames: number): [Float32Array, Float32Array] {
  const next = randomNumbers(seed);
  const [shared, apart] = [noise({ seed: seed + 1, frames }), noise({ seed: seed + 2, frames })];
  const step = next() * 2;
  const tone = shared.map((_, n) => 0.1 * Math.sin(step * n));
  const left = mix(shared, 2 * next() - 1, tone, next());
  const right = mix(mix(shared, 2 * next() - 1, apart, next()), 1, tone, 2 * next() - 1);
  if (next() < 0.3) right.fill(0, 0, Math.floor(next() * frames));
  if (next() < 0.3) left.set(right.subarray(0, Math.floor(next() * frames)));
  return [left, right];
}
