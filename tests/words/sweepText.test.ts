import { expect, test } from "vitest";
import { sweepText } from "../../src/words/sweepText.js";
import type { BestResult, SweepReport } from "../../src/work/sweep/sweepReport.js";

const best = (rank: number, returnDb: number, sideShare: number, routing = "parallel"): BestResult => ({
  rank,
  setting: rank,
  routing,
  by: "algebra",
  settings: { "mixer.returnDb": returnDb },
  meets: true,
  front: true,
  fellOut: null,
  measures: { sideShare },
  algebraOff: null,
  spread: null,
});

const report = (results: readonly BestResult[], rest: Partial<SweepReport> = {}): SweepReport => ({
  schemaVersion: 1,
  rig: { name: "Ferry", file: null, playsInto: "stereo-desk" },
  take: { file: "take.wav", sha256: "", rateHz: 48_000, frames: 48_000, channels: 1 },
  frames: 48_000,
  tailSeconds: 0,
  vary: [[{ path: "mixer.returnDb", values: [-12, -6, 0] }]],
  sample: null,
  seed: 1,
  routings: [{ id: "parallel", label: "Beside" }],
  reference: null,
  tolerance: null,
  want: [],
  aims: [{ measure: "sideShare", better: "more" }],
  counts: { settings: 3, results: 3, algebra: 3, rendered: 0, draws: 0, meeting: 3, open: 0 },
  loadingNote: "Loading is left out of the sound, as asked.",
  fellOut: [],
  best: results,
  pair: null,
  ...rest,
});

const said = (of: SweepReport) => sweepText(of, 100).replace(/\s+/g, " ");
const end = "The best stands at the end of a range: mixer.returnDb at -12 (looked at: -12 to 0).";

test("a best at the end of its range is told, one within it is not", () => {
  expect(said(report([best(1, -12, 0.3), best(2, -6, 0.2), best(3, 0, 0.1)]))).toContain(end);
  expect(said(report([best(1, -6, 0.3), best(2, -12, 0.2), best(3, 0, 0.1)]))).not.toContain(
    "end of a range",
  );
});

test("a knob that changes nothing has no end to stand at", () => {
  const alike = [best(1, -12, 0.3, "dual-mono"), best(2, -6, 0.3, "dual-mono"), best(3, 0, 0.3, "dual-mono")];
  expect(said(report(alike))).not.toContain("end of a range");
});

test("a wish that every result meets, and one that none meets, are told", () => {
  const want = [
    { measure: "sideShare", is: ">=", limit: 0.01 },
    { measure: "foldDownLossDb", is: "<=", limit: -3 },
  ] as SweepReport["want"];
  const text = said(
    report([best(1, -6, 0.3)], {
      want,
      fellOut: [
        { wish: "sideShare>=0.01", results: 0 },
        { wish: "foldDownLossDb<=-3", results: 3 },
      ],
    }),
  );
  expect(text).toContain("sideShare>=0.01 decided nothing: every result meets it.");
  expect(text).toContain("No result meets foldDownLossDb<=-3, wherever the knobs stand.");
  // What takes a render and was not rendered is not said to be met.
  const open = { ...report([]).counts, open: 2 };
  expect(
    said(report([best(1, -6, 0.3)], { want, counts: open, fellOut: [{ wish: "a", results: 0 }] })),
  ).not.toContain("decided nothing");
});
