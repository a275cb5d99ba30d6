import { expect, test } from "vitest";
import {
  recordingsFor,
  renderedReference,
  renderedRoutings,
} from "../../../src/page/live/renderedRoutings.js";
import type { Report } from "../../../src/work/compare/report.js";
import { measures, reportOf } from "../../words/reports.js";

const facts = {
  file: "real.wav",
  sha256: "0",
  rateHz: 48_000,
  frames: 1,
  channels: 2,
  notices: [],
  latencyMs: 1,
  invertsPolarity: false,
  gainDb: 0,
  confidence: 1,
};

/** Routings and a recording behind them, which may be the reference. */
function report(reference: string): Report {
  const made = reportOf({ summed: measures(), "stereo-unit": measures() });
  const [first] = made.routings.filter(({ id }) => id === "summed");
  const recording = { ...first, id: "real", label: "real", build: null, recorded: facts };
  return { ...made, reference, routings: [...made.routings, recording] };
}

test("a page renders routings, and compares with one of them", () => {
  expect(renderedRoutings(report("real"))).toHaveLength(report("real").routings.length - 1);
  expect(renderedRoutings(report("real")).some(({ id }) => id === "real")).toBe(false);
  expect(renderedReference(report("summed"))).toBe("summed");
  expect(renderedReference(report("real"))).toBeNull();
});

test("recordings go with the take that was played, and with no other", () => {
  const { take } = report("real");
  expect(recordingsFor(report("real"), take.sha256)).toMatchObject({
    recordings: [{ id: "real", facts }],
    recordedReference: "real",
  });
  expect(recordingsFor(report("summed"), take.sha256).recordedReference).toBeNull();
  expect(recordingsFor(report("real"), "another")).toEqual({
    recordings: [],
    readings: [],
    recordedReference: null,
  });
});
