import { expect, test } from "vitest";
import { answerWords } from "../../src/words/answerWords.js";
import { comparison } from "../browser/comparison.js";
import { noise } from "../signals.js";

/** What a take does not hold cannot be lost: without a word of it, "all in mono" was the answer to a stereo keyboard. */
test.each([
  ["mono", [8], true],
  ["the same on both sides", [8, 8], true],
  ["stereo", [8, 9], false],
] as const)("a take that is %s, played by an instrument with two outputs", async (_name, seeds, isTold) => {
  const rig =
    "name: Keys\nplaysInto: stereo-desk\ninstrument: { outputs: 2 }\npedals: [{ name: Swell, model: tremolo, jacks: mono }]\n";
  const channels = seeds.map((seed) => noise({ seed, frames: 8000, rms: 0.1 }));
  const { report } = await comparison(rig, { channels, rateHz: 16_000, bits: 24 }, {}, 1);
  const told = answerWords(report).lead.filter((line) => /played alike \(take\.wav\)/.test(line));
  expect(told.length === 1).toBe(isTold);
});
