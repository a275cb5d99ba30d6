import { expect, test } from "vitest";
import { coverageOf } from "../work/capture/alignCases.js";

const cases = Number(process.env.ALIGNMENTS ?? 200);

/** Intervals are told as those of nine cases in ten. */
test(`the intervals of align hold the truth in ${cases} random loops`, async () => {
  const coverage = await coverageOf(cases, 11);
  console.log(coverage);
  for (const share of [coverage.latency, coverage.gain]) expect(share).toBeGreaterThan(0.85);
  expect(coverage.sureAndWrong).toBeLessThanOrEqual(0.01 * cases);
  expect(coverage.otherLags).toBe(0);
});
