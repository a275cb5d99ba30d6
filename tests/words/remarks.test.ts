import { expect, test } from "vitest";
import { remarksOf } from "../../src/words/remarks.js";
import { band, measures, monoMeasures, reportOf } from "./reports.js";

const reference = measures({ widthKept: 1 });
const said = (id: string, figures: Parameters<typeof reportOf>[0]) =>
  remarksOf(reportOf({ "stereo-unit": reference, ...figures })).get(id);

test("an unremarkable routing gets no remark", () => {
  expect(said("unit-first", { "unit-first": measures() })).toEqual([]);
  expect(said("stereo-unit", {})).toEqual([]);
});

test("mono is told as such, and no other is then called the least wide", () => {
  const figures = {
    summed: monoMeasures,
    parallel: measures({ widthKept: 0.31 }),
    "parallel-after": measures({ widthKept: 0.7 }),
  };
  expect(said("summed", figures)).toEqual(["both sides are alike: no width is left"]);
  expect(said("parallel", figures)).toEqual(["keeps 31 % of the width"]);
  const { summed: _, ...stereo } = figures;
  expect(said("parallel", stereo)).toEqual(["keeps 31 % of the width (the least)"]);
  expect(said("parallel-after", stereo)).toEqual(["keeps 70 % of the width"]);
});

test("a lean is told where the reference has it not", () => {
  const leaning = { "one-side": measures({ balanceDb: -2.4 }) };
  expect(said("one-side", leaning)).toEqual(["the right is 2.4 dB louder (the most lopsided)"]);
  const alike = remarksOf(
    reportOf({ "stereo-unit": measures({ balanceDb: 2 }), parallel: measures({ balanceDb: 2.1 }) }),
  );
  expect(alike.get("parallel")).toEqual([]);
});

test("loss in mono, correlation below 0, combs and tone are told with their figures", () => {
  const bad = measures({
    foldDownLossDb: 9.16,
    correlationOverTime: {
      median: -0.2,
      percentile5: -0.8,
      shareBelowZero: 0.66,
      values: [],
      hopSeconds: 0.1,
    },
    comb: { delayMs: 1.4, levelDb: -3.56, inverted: true, side: "left", notchesHz: [357.14, 1071] },
    bands: [
      band({ centreHz: 250, levelDb: -18, toReferenceDb: -4.2 }),
      band({ centreHz: 1000, levelDb: -20, toReferenceDb: 3.5 }),
      band({ centreHz: 8000, levelDb: -70, toReferenceDb: 20 }),
    ],
  });
  expect(said("parallel", { parallel: bad })).toEqual([
    "loses 9.2 dB in mono, most around 500 Hz (the most)",
    "correlation is below 0 for 66 % of the time, tail included (5 % of it at -0.80 or under)",
    "comb on the left: an inverted copy of the dry sound 1.4 ms late at -3.6 dB, first notch 357 Hz",
    "4.2 dB less than the reference around 250 Hz",
  ]);
});

test("figures that do not exist give no remark", () => {
  const empty = measures({
    correlation: null,
    correlationOverTime: null,
    sideShare: null,
    widthKept: null,
    balanceDb: null,
    foldDownLossDb: null,
    worstFoldDownHz: null,
    integratedLufs: null,
    bands: [],
  });
  expect(said("parallel", { parallel: empty })).toEqual([]);
});

/** A wiring with less reverb is wider by that alone: a fair table says so. */
test("how much more or less effect there is than in line is told from 3 dB on", () => {
  const figures = {
    "series-mono": { ...monoMeasures, wetToDryDb: -5 },
    parallel: measures({ wetToDryDb: -14.3 }),
    "dual-mono": measures({ wetToDryDb: -4.4 }),
    summed: measures({ wetToDryDb: null }),
    "one-side": measures({ wetToDryDb: -1.9 }),
  };
  expect(said("parallel", figures)).toContain("9.3 dB less effect to the dry sound than in line");
  expect(said("one-side", figures)).toContain("3.1 dB more effect to the dry sound than in line");
  expect(said("dual-mono", figures)!.join()).not.toContain("effect");
  expect(said("summed", figures)!.join()).not.toContain("effect");
});
