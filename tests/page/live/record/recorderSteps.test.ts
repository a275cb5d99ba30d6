import { expect, test } from "vitest";
import type { RecordedFacts, RecorderState } from "../../../../src/page/contract/recorder.js";
import { countPlan, countsLeft } from "../../../../src/page/live/record/countIn.js";
import { afterStep } from "../../../../src/page/live/record/recorderSteps.js";

const facts: RecordedFacts = {
  name: "take.wav",
  seconds: 1,
  rateHz: 48_000,
  channels: 1,
  peakDbfs: -6,
  isClipped: false,
  notices: [],
};
const ready: RecorderState = { kind: "ready", facts };

test("counts, records, is ready, and begins anew once that is discarded", () => {
  let state: RecorderState = { kind: "idle" };
  const kinds = (
    [
      { kind: "count", left: 2 },
      { kind: "count", left: 1 },
      { kind: "record" },
      { kind: "end", facts },
      { kind: "discard" },
    ] as const
  ).map((step) => {
    state = afterStep(state, step);
    return state.kind;
  });
  expect(kinds).toEqual(["counting", "counting", "recording", "ready", "idle"]);
});

test("what was recorded goes by discarding alone", () => {
  for (const step of [
    { kind: "count", left: 1 },
    { kind: "record" },
    { kind: "end", facts: null },
  ] as const) {
    expect(() => afterStep(ready, step)).toThrow(/a recorder that is ready does not/);
  }
  expect(() => afterStep({ kind: "recording" }, { kind: "discard" })).toThrow(/does not discard/);
});

test("a stop without a sound leaves nothing", () => {
  expect(afterStep({ kind: "counting", left: 3 }, { kind: "end", facts: null })).toEqual({ kind: "idle" });
});

test("beats fall at their tempo, and the one that sounds is counted among those that are left", () => {
  const plan = countPlan({ kind: "beats", beats: 4, perMinute: 120 });
  expect(plan).toEqual({ atMs: [0, 500, 1000, 1500], lengthMs: 2000 });
  expect([0, 499, 500, 1600].map((ms) => countsLeft(plan, ms))).toEqual([4, 4, 3, 1]);
  expect(countPlan({ kind: "none" }).lengthMs).toBe(0);
  expect(countPlan({ kind: "seconds", seconds: 3 }).lengthMs).toBe(3000);
});
