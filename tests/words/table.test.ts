import { expect, test } from "vitest";
import { compareTable } from "../../src/words/table.js";
import { measures, monoMeasures, reportOf } from "./reports.js";

const report = reportOf({
  "series-mono": monoMeasures,
  "unit-first": measures(),
  parallel: measures({
    widthKept: 0.6,
    comb: { delayMs: 1.4, levelDb: -3.6, inverted: false, side: "both", notchesHz: [357] },
  }),
  "parallel-after": measures({ widthKept: 0.72 }),
  "one-side": measures({ correlation: -0.1, balanceDb: -12.4, foldDownLossDb: 5.5, integratedLufs: null }),
  "stereo-unit": measures({ widthKept: 1 }),
});

test.each([80, 100])("the table at %i columns", async (columns) => {
  const text = compareTable(report, columns);
  for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(columns);
  await expect(text).toMatchFileSnapshot(`table-${columns}.txt`);
});

test("a narrow terminal is told what it does without; a wide one has it", () => {
  expect(compareTable(report, 80)).toContain(
    "Left out for want of room: loudness, true peak; see report.csv.",
  );
  expect(compareTable(report, 100)).not.toContain("Left out");
  expect(compareTable(report, 100)).toMatch(/loudness +peak/);
});

test("bold goes around headings, and plain text has no escapes", () => {
  const paint = { bold: (text: string) => `<${text}>`, dim: (text: string) => text };
  expect(compareTable(report, 100, paint)).toContain("<What stands out>");
  expect(compareTable(report, 100)).not.toContain("\u001b");
});

test("unmatched files are told as such", () => {
  const plain = { ...report, matching: { ...report.matching, on: false, targetLufs: null } };
  expect(compareTable(plain, 100)).toContain("Files are not matched");
});
