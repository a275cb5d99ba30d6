import { expect, test } from "vitest";
import { morePlans } from "../../../src/cli/planWords.js";
import { hasMoreWays, liveChoice, sameShape, shapeOf } from "../../../src/page/live/liveChoice.js";
import { chooseRoutings, type RoutingChoice } from "../../../src/rig/routings/chooseRoutings.js";
import { asPlacedId } from "../../../src/rig/routings/routing.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
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

/** What is shown of a rig may stay only while all of it is still true. */
test("a routing that comes to the others leaves the shape of the rest, another pedal or label does not", () => {
  const shape = (of: typeof rig) => shapeOf(of, liveChoice(of, { rig, report }));
  const drawn = (label: string) => ({
    ...rig,
    wirings: { mine: { label, boxes: {}, cables: [{ from: "take:out", to: "destination:in" }] } },
  });
  expect(hasMoreWays(shape(rig), shape(drawn("Mine")))).toBe(true);
  expect(sameShape(shape(rig), shape(drawn("Mine")))).toBe(false);
  expect(hasMoreWays(shape(drawn("Mine")), shape(rig))).toBe(false);
  expect(hasMoreWays(shape(drawn("Mine")), shape(drawn("Yours")))).toBe(false);
  expect(hasMoreWays(shape(rig), shape({ ...drawn("Mine"), name: "Other" }))).toBe(false);
  expect(hasMoreWays(null, shape(rig))).toBe(false);
});

/** README, "The answer": the usual plans that mix places are compared like the eight, on the page as by the command. */
test("a bench without a comparison has the wirings that the command compares", () => {
  const command = chooseRoutings(rig, null, null, morePlans({}));
  const idsOf = ({ routings }: RoutingChoice) => routings.map(({ id }) => id);
  expect(idsOf(liveChoice(rig, null))).toEqual(idsOf(command));
  expect(idsOf(command)).toContain("grit-first.tank-beside");
});

test("plans that mix places come with other mono units, unless the command was told to leave something out", () => {
  const one = rigOf([pedals[0], pedals[2]]);
  const whole = reportOf(Object.fromEntries(routingsOf(one).map(({ id }) => [id, measures()])));
  const mixed = (came: Report) =>
    liveChoice(rig, { rig: one, report: came }).routings.filter(({ id }) => id.includes("."));
  expect(mixed(whole).length).toBe(3);
  expect(mixed(report)).toEqual([]);
});
