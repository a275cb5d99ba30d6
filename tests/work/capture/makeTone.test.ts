import { expect, test } from "vitest";
import { UserError } from "../../../src/text/userError.js";
import { makeTone } from "../../../src/work/capture/makeTone.js";
import { markSamples, sweepSamples, toneLayout } from "../../../src/work/capture/toneLayout.js";
import { toneSettingsOf, toneSettingTable } from "../../../src/work/capture/toneSettings.js";
import { expectWithin } from "../../within.js";

const peakOf = (signal: Float32Array) => signal.reduce((peak, x) => Math.max(peak, Math.abs(x)), 0);

test("defaults: -12 dBFS, two sweeps, marks between, and the cautions", () => {
  const { clip, description } = makeTone();
  expect(clip.rateHz).toBe(48_000);
  expect(clip.channels).toHaveLength(1);
  expectWithin(20 * Math.log10(peakOf(clip.channels[0])), -12, 0.01, "dBFS");
  expect(description.sweepStartsSeconds).toHaveLength(2);
  expect(description.markStartsSeconds).toHaveLength(3);
  expectWithin(description.lengthSeconds, clip.channels[0].length / 48_000, 1e-9, "s");
  expect(description.cautions.join(" ")).toMatch(/[Hh]earing/);
  expect(description.cautions.join(" ")).toMatch(/tweeter/);
});

test("lead-in and gaps are silent; every sweep and mark is the same", () => {
  const settings = toneSettingsOf({ lengthSeconds: 1, repeats: 3, gapSeconds: 0.3, leadInSeconds: 0.25 });
  const layout = toneLayout(settings);
  const [sound] = makeTone(settings).clip.channels;
  const [mark, sweep] = [markSamples(layout), sweepSamples(layout)];
  const rest = sound.slice();
  for (const start of layout.markStarts) {
    expect(sound.subarray(start, start + mark.length)).toEqual(mark);
    rest.fill(0, start, start + mark.length);
  }
  for (const start of layout.sweepStarts) {
    expect(sound.subarray(start, start + sweep.length)).toEqual(sweep);
    rest.fill(0, start, start + sweep.length);
  }
  expect(peakOf(rest)).toBe(0);
  expect(layout.markStarts[0]).toBe(0.25 * 48_000);
  expect(sound.length).toBe(layout.frames);
});

test("a sweep starts and ends without a step", () => {
  const sweep = sweepSamples(toneLayout(toneSettingsOf({ levelDbfs: -1 })));
  for (const edge of [sweep.subarray(0, 48), sweep.subarray(-8)]) expect(peakOf(edge)).toBeLessThan(1e-3);
});

test.each([
  [{ levelDbfs: 3 }, /levelDbfs is 3; it goes from -60 to -1/],
  [{ repeats: 1.5 }, /repeats is 1.5; write a whole number/],
  [{ lengthSeconds: Number.NaN }, /lengthSeconds is NaN; it goes from 0.5 to 60/],
  [{ rateHz: 32_000, toHz: 20_000 }, /toHz is 20000; at 32000 Hz a sweep can reach 15680 Hz/],
  [{ fromHz: 1000, toHz: 2000 }, /a sweep needs two octaves. Write at least 4000 for toHz/],
])("out of range: %j", (given, words) => {
  expect(() => makeTone(given)).toThrow(UserError);
  expect(() => makeTone(given)).toThrow(words);
});

test("all faults are told at once", () => {
  expect(() => makeTone({ levelDbfs: 3, repeats: 0 })).toThrow(/levelDbfs.*\n.*repeats/);
});

test("every default lies within its own bounds", () => {
  for (const { default: usual, min, max } of Object.values(toneSettingTable)) {
    expect(usual).toBeGreaterThanOrEqual(min);
    expect(usual).toBeLessThanOrEqual(max);
  }
});
