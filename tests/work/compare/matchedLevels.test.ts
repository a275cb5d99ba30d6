import { expect, test } from "vitest";
import { matchedLevels } from "../../../src/work/compare/matchedLevels.js";
import { expectWithin } from "../../within.js";

const reading = (id: string, integratedLufs: number | null, truePeakDbtp: number | null) => ({
  id,
  integratedLufs,
  truePeakDbtp,
});

/** EBU R 128 v5 (2023): true peak at most -1 dBTP. One gain for all: how wirings differ stays as it was. */
test.each([
  [[-6, -9, null], 0],
  [[-1, -9, null], 0],
  [[-0.5, -9, null], -0.5],
  [[-7, 3.2, null], -4.2],
])("unmatched, peaks at %j dBTP: %f dB for all", (peaks, gainDb) => {
  const levels = matchedLevels(
    peaks.map((peak, n) => reading(`r${n}`, peak === null ? null : -20, peak)),
    false,
  );
  expect([levels.on, levels.targetLufs]).toEqual([false, null]);
  for (const gain of levels.gainDb.values()) expectWithin(gain, gainDb, 1e-9, "dB");
  expect(levels.gainDb.size).toBe(3);
});

test("matched, the loudest that all reach with no peak over -1 dBTP, and a silent one gets none", () => {
  const readings = [reading("a", -30, -2), reading("b", -20, -6), reading("c", null, null)];
  const { targetLufs, gainDb } = matchedLevels(readings, true);
  expect(targetLufs).toBe(-29);
  expect([...gainDb]).toEqual([
    ["a", 1],
    ["b", -9],
    ["c", 0],
  ]);
});
