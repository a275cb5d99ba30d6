import { expect, test } from "vitest";
import { liveChoice } from "../../../src/page/live/liveChoice.js";
import { asPlacedId } from "../../../src/rig/routings/routing.js";
import type { Report } from "../../../src/work/compare/report.js";
import { pedal, rigOf } from "../../rigs.js";
import { measures, reportOf } from "../../words/reports.js";

const pedals = [
  pedal("Swing", "vibrato", "mono-to-stereo"),
  pedal("Grit", "overdrive", "mono"),
  pedal("Tank", "plate", "mono"),
];
const rig = rigOf(pedals);
const report: Report = reportOf({
  "series-mono": measures(),
  parallel: measures(),
  "stereo-unit": measures(),
});

/** design.md, section 9: a plan of places, here a mixed one, beside the rest; the reference stays. */
test("a plan that is chosen on the page is compared beside what it came with", () => {
  const placed = { ...rig, places: { Grit: "first", Tank: "beside" } } as const;
  const before = liveChoice(rig, { rig, report });
  const after = liveChoice(placed, { rig, report });
  expect(after.routings.map(({ id }) => id)).toEqual([...before.routings.map(({ id }) => id), asPlacedId]);
  expect(after.routings.at(-1)?.wiring).not.toBeNull();
  expect(after.reference?.id).toBe(before.reference?.id);
});
