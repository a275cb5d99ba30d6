import { expect, test } from "vitest";
import { dbToGain } from "../../../src/sound/dsp/units.js";
import { type LevelReading, matchGains } from "../../../src/sound/measure/match.js";
import { measureClip, StereoMeter } from "../../../src/sound/measure/stereoMeter.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { levels, mix } from "./testTones.js";

const reading = (integratedLufs: number | null, truePeakDbtp: number | null): LevelReading => ({
  integratedLufs,
  truePeakDbtp,
});

/** EBU R 128 v5 (2023): -23 LUFS, true peak at most -1 dBTP. */
test("with room to spare, all go to -23 LUFS", () => {
  const { targetLufs, gainsDb } = matchGains([reading(-30, -18), reading(-18, -3)]);
  expect(targetLufs).toBe(-23);
  expect(gainsDb).toEqual([7, -5]);
});

test("the one with the highest peaks sets the loudness of all", () => {
  const { targetLufs, gainsDb } = matchGains([reading(-30, -2), reading(-20, -6)]);
  expect(targetLufs).toBe(-29);
  expect(gainsDb).toEqual([1, -9]);
});

test("limit and loudness can be given, and silent ones get no gain", () => {
  const { targetLufs, gainsDb } = matchGains([reading(null, null), reading(-20, -10)], {
    limitDbtp: -3,
    ceilingLufs: -14,
  });
  expect(targetLufs).toBe(-14);
  expect(gainsDb).toEqual([null, 6]);
  expect(matchGains([reading(null, -60)])).toEqual({ targetLufs: null, gainsDb: [null] });
  expect(matchGains([])).toEqual({ targetLufs: null, gainsDb: [] });
});

/** The promise itself: matched sounds measure alike within 0.1 LU, none above -1 dBTP. */
test("matched sounds measure the same", () => {
  const rateHz = 44_100;
  const sounds = [
    levels([[4, -3]], rateHz, 220),
    noise({ seed: 1, frames: 4 * rateHz, rms: 0.02 }),
    mix(
      levels([[4, -40]], rateHz, 880),
      1,
      noise({ seed: 2, frames: 4 * rateHz }).map((x) => x ** 5 * 3000),
      1,
    ),
  ];
  const measure = (sound: Float32Array) => measureClip({ rateHz, channels: [sound] });
  const { targetLufs, gainsDb } = matchGains(sounds.map(measure));
  sounds.forEach((sound, k) => {
    const matched = measure(sound.map((x) => x * dbToGain(gainsDb[k] ?? Number.NaN)));
    expectWithin(matched.integratedLufs, targetLufs ?? Number.NaN, 0.1, "LUFS");
    expect(matched.truePeakDbtp).toBeLessThanOrEqual(-0.999);
  });
});

/**
 * A tone that fades through the absolute gate, ITU-R BS.1770: raised by 40 dB, blocks count that did not before, and
 * loudness no longer moves dB for dB. With the block powers the file still measures the target.
 */
test("a very quiet take measures the target too", () => {
  const rateHz = 48_000;
  const fading = levels([[12, -55]], rateHz, 500).map((x, n) => x * 10 ** (-(n / rateHz) / 12));
  const meter = new StereoMeter(rateHz);
  meter.push(fading, fading, fading.length);
  const measures = meter.result();
  const gainFor = (blockPowers?: Float64Array) => matchGains([{ ...measures, blockPowers }]).gainsDb[0] ?? 0;
  const lufsAt = (gainDb: number) =>
    measureClip({ rateHz, channels: [fading.map((x) => x * dbToGain(gainDb))] }).integratedLufs;
  expectWithin(lufsAt(gainFor(meter.gatingBlocks())), -23, 0.01, "LUFS");
  expect(Math.abs((lufsAt(gainFor()) ?? 0) + 23)).toBeGreaterThan(0.1);
});
