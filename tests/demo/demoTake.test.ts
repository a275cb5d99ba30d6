import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { demoTakes, makeDemoTake } from "../../src/demo/demoTake.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import { expectWithin } from "../within.js";

const stored = (name: string) => readFileSync(new URL(`../../fixtures/takes/${name}.wav`, import.meta.url));

test.each(demoTakes)("the shipped take %s is what the synthesis gives, byte for byte", (name) => {
  expect(stored(name).equals(encodeWav(makeDemoTake(name), 24))).toBe(true);
});

test.each([
  ["ferry-road", 15, 20],
  ["quay-piano", 10, 12],
] as const)("%s: long enough to judge, peak -3 dBFS, no DC, ends in silence", (name, shortest, longest) => {
  const { rateHz, channels } = makeDemoTake(name);
  const [samples] = channels;
  const seconds = samples.length / rateHz;
  expect(rateHz).toBe(48_000);
  expect(channels).toHaveLength(1);
  expect(seconds).toBeGreaterThanOrEqual(shortest);
  expect(seconds).toBeLessThanOrEqual(longest);
  const peak = samples.reduce((largest, x) => Math.max(largest, Math.abs(x)), 0);
  expectWithin(20 * Math.log10(peak), -3, 1e-6, "dBFS");
  expectWithin(samples.reduce((sum, x) => sum + x, 0) / samples.length, 0, 1e-4, "of full scale");
  expectWithin(samples[samples.length - 1], 0, 0);
});

test.each(demoTakes)(
  "%s has loud and soft, and rests of at least a quarter second to hear a tail in",
  (name) => {
    const { rateHz, channels } = makeDemoTake(name);
    const hop = rateHz / 20;
    const levelsDb = Array.from({ length: Math.floor(channels[0].length / hop) }, (_, n) => {
      const part = channels[0].subarray(n * hop, (n + 1) * hop);
      return 10 * Math.log10(part.reduce((sum, x) => sum + x * x, 1e-12) / hop);
    });
    const loudest = Math.max(...levelsDb);
    const sounding = levelsDb.filter((level) => level > loudest - 40).sort((a, b) => a - b);
    expect(
      sounding[Math.floor(sounding.length * 0.9)] - sounding[Math.floor(sounding.length * 0.1)],
    ).toBeGreaterThan(8);
    let [rest, longestRest] = [0, 0];
    for (const level of levelsDb.slice(0, -20)) {
      rest = level < loudest - 40 ? rest + 1 : 0;
      longestRest = Math.max(longestRest, rest);
    }
    expect(longestRest).toBeGreaterThanOrEqual(5);
  },
);
