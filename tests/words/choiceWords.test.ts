import { expect, test } from "vitest";
import { choiceWords } from "../../src/words/choiceWords.js";
import type { Report } from "../../src/work/compare/report.js";
import { measures, monoMeasures, reportOf } from "./reports.js";

/** Balanced side shares are (1 - correlation) / 2: 0.19 of the usual render and 0.35 of the reference. */
const report = reportOf({
  "series-mono": monoMeasures,
  "unit-first": measures(),
  parallel: measures(),
  "one-side": measures({ balanceDb: 3 }),
  "stereo-unit": measures({ correlation: 0.3, foldDownLossDb: 1.8 }),
});

test("a choice costs width, mono, boxes and money, as the answer has them", () => {
  expect(choiceWords(report, "unit-first")).toBe(
    "Keeps 54 % of the width, loses 0.9 dB in mono, needs no more boxes and costs nothing.",
  );
  expect(choiceWords(report, "series-mono")).toBe(
    "Keeps none of the width, loses nothing in mono, needs no more boxes and costs nothing.",
  );
  expect(choiceWords(report, "parallel")).toMatch(
    /^Keeps 54 % of the width, loses 0\.9 dB in mono, needs 2 more boxes and costs what the rig does not say/,
  );
});

test("a lean is not sold as width, nor the reference as something to buy", () => {
  const leaning = choiceWords(report, "one-side");
  expect(leaning).toMatch(/^One side lacks a unit that the other has/);
  expect(leaning).not.toContain("%");
  expect(choiceWords(report, "stereo-unit")).toBe(
    "The rig names no stereo unit to buy; this one is the measure of width. Keeps 100 % of the width and loses 1.8 dB in mono.",
  );
});

test("what goes against the asks is told, and what is not known of them; a recording, the dry take and what was kept are what they are", () => {
  const ask = { unit: null, limit: 0, figure: null, by: [] } as const;
  const held = [
    {
      id: "parallel",
      asks: [
        { ...ask, ask: "extraBoxesAtMost", keeps: false },
        { ...ask, ask: "spendAtMost", keeps: null },
        { ...ask, ask: "oneOfEach", keeps: true },
      ],
    },
  ] as const;
  const asked: Report = { ...report, answer: { ...report.answer, held } };
  expect(choiceWords(asked, "parallel")).toMatch(
    / Goes against: no more boxes\. Not known whether it keeps: nothing to buy\.$/,
  );
  const [first, ...rest] = report.routings;
  const kept = { ...first, id: "kept-1", measures: measures() };
  expect(choiceWords({ ...report, routings: [...report.routings, kept] }, "kept-1")).toBe(
    "Keeps 54 % of the width, loses 0.9 dB in mono, needs no more boxes and costs nothing. " +
      "Its width is told against the reference of the rig as it is now.",
  );
  const real = { ...first, id: "real", says: "Recorded (real.wav).", build: null };
  expect(choiceWords({ ...report, routings: [...rest, real] }, "real")).toBe("Recorded (real.wav).");
  expect(choiceWords(report, "dry")).toBe("The take as it was played, before any pedal.");
});
