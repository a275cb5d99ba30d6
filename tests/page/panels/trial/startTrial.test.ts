import { expect, test } from "vitest";
import { cryptoBelow, shuffled } from "../../../../src/page/panels/trial/random.js";
import { startTrial } from "../../../../src/page/panels/trial/startTrial.js";
import type { Trial } from "../../../../src/page/panels/trial/trial.js";
import { trialCsv, trialJson } from "../../../../src/page/panels/trial/trialFile.js";
import { randomNumbers } from "../../../signals.js";

const names = {
  started: "2026-01-01T12:00:00.000Z",
  rig: "Ferry Road",
  take: "verse.wav",
  settings: "name: Ferry Road",
  loop: { from: 1, to: 2.5 },
  folded: false,
};
const seeded = (seed: number) => {
  const next = randomNumbers(seed);
  return (count: number) => Math.floor(next() * count);
};

function answerAll(trial: Trial, choose: (sounds: NonNullable<Trial["sounds"]>) => "A" | "B"): void {
  for (let sounds = trial.sounds; sounds; sounds = trial.sounds) trial.answer(choose(sounds));
}

test("a listener who hears it is right in all triplets", () => {
  const plan = { kind: "tell-apart", routings: ["parallel", "summed"], trials: 12 } as const;
  const trial = startTrial(plan, names, seeded(1));
  answerAll(trial, ({ A, X }) => (X === A ? "A" : "B"));
  expect(trial.result?.tellApart).toEqual({
    correct: 12,
    trials: 12,
    probability: expect.closeTo(2 ** -12, 12),
  });
  expect(trial.result?.prefer).toBeNull();
});

test("nothing is told before the last answer", () => {
  const trial = startTrial({ kind: "tell-apart", routings: ["a", "b"], trials: 3 }, names, seeded(2));
  trial.answer("A");
  trial.answer("B");
  expect([trial.result, trial.answered]).toEqual([null, 2]);
  trial.answer("A");
  expect(trial.sounds).toBeNull();
  trial.answer("A");
  expect(trial.result?.answers).toHaveLength(3);
});

/** X is a fair coin of its own: of 2000 draws the share of A lies within 4 standard deviations (0.0447) of a half. */
test("which one is X, and which one is A, is a fair coin", () => {
  let xIsA = 0;
  let firstIsA = 0;
  for (let seed = 0; seed < 10; seed++) {
    const trial = startTrial({ kind: "tell-apart", routings: ["a", "b"], trials: 200 }, names, seeded(seed));
    answerAll(trial, ({ A, X }) => {
      if (X === A) xIsA++;
      if (A === "a") firstIsA++;
      return "A";
    });
  }
  for (const share of [xIsA / 2000, firstIsA / 2000]) expect(Math.abs(share - 0.5)).toBeLessThan(0.0447);
});

test("all pairs come equally often, as far as the number goes", () => {
  const plan = { kind: "prefer", routings: ["a", "b", "c", "d"], trials: 15 } as const;
  const trial = startTrial(plan, names, seeded(3));
  answerAll(trial, ({ A, B, X }) => {
    expect(X).toBeNull();
    return A < B ? "A" : "B";
  });
  const prefer = trial.result?.prefer ?? [];
  expect(prefer.map(({ first, second }) => first + second)).toEqual(["ab", "ac", "ad", "bc", "bd", "cd"]);
  for (const { trials, firstChosen, low, high } of prefer) {
    expect([2, 3]).toContain(trials);
    expect(firstChosen).toBe(trials);
    expect(high).toBe(1);
    expect(low).toBeCloseTo(0.025 ** (1 / trials), 10);
  }
  expect(prefer.reduce((sum, { trials }) => sum + trials, 0)).toBe(15);
  expect(trial.result?.tellApart).toBeNull();
});

test("a plan that is none is refused", () => {
  const start = (routings: string[], trials: number) => () =>
    startTrial({ kind: "prefer", routings, trials }, names, seeded(1));
  expect(start(["a"], 4)).toThrow(RangeError);
  expect(start(["a", "a"], 4)).toThrow(RangeError);
  expect(start(["a", "b"], 0)).toThrow(RangeError);
  expect(start(["a", "b"], 201)).toThrow(RangeError);
  expect(start(["a", "b"], 2.5)).toThrow(RangeError);
});

test("the record as JSON and CSV", () => {
  const trial = startTrial(
    { kind: "tell-apart", routings: ["a", "b"], trials: 2 },
    { ...names, rig: 'He said "no", twice', take: "x.wav" },
    seeded(4),
  );
  answerAll(trial, () => "B");
  const result = trial.result!;
  expect(JSON.parse(trialJson(result))).toEqual(result);
  const lines = trialCsv(result).split("\r\n");
  expect(lines[0]).toBe(
    "trial,kind,A,B,X,answer,chosen,correct,started,rig,take,loopFromSeconds,loopToSeconds,folded",
  );
  const { A, B, X, correct } = result.answers[0];
  expect(lines[1]).toBe(
    `1,tell-apart,${A},${B},${X},B,${B},${correct},2026-01-01T12:00:00.000Z,"He said ""no"", twice",x.wav,1,2.5,false`,
  );
  expect(lines).toHaveLength(4);
});

test("the cryptographic source is even and keeps its bounds", () => {
  const counts = [0, 0, 0];
  for (let n = 0; n < 3000; n++) counts[cryptoBelow(3)]++;
  // Four standard deviations of a binomial count, sqrt(3000 / 3 * 2 / 3) = 25.8: once in 16 000 runs by chance.
  for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(104);
  expect(() => cryptoBelow(0)).toThrow(RangeError);
  expect(shuffled([1, 2, 3, 4], cryptoBelow).sort()).toEqual([1, 2, 3, 4]);
});
