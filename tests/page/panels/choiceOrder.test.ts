import { expect, test } from "vitest";
import { choiceOrder, choiceRank } from "../../../src/page/panels/choiceOrder.js";
import type { Report } from "../../../src/work/compare/report.js";
import { simpleRig } from "../../rigs.js";
import { measures, monoMeasures, reportOf } from "../../words/reports.js";
import { FakeBench } from "../fakeBench.js";

const report = reportOf({
  "series-mono": monoMeasures,
  "unit-first": measures(),
  "dual-mono": measures(),
  parallel: measures({ correlation: 0.5 }),
  "parallel-after": measures(),
  "one-side": measures({ balanceDb: 3 }),
  summed: monoMeasures,
  "stereo-unit": measures({ correlation: 0.3 }),
});

const viewOf = (of: Report, overTakes?: { plan: string; says: readonly string[]; next: null }) => {
  const bench = new FakeBench({ rig: simpleRig(), report: of, fields: [], peaks: [] });
  return { bench, data: { report: of, opensOn: "short", ...(overTakes && { overTakes }) } } as const;
};

test("first the answer, the next best, all in mono and the measure of width; the rest one tap further", () => {
  const view = viewOf(report);
  const { plan, next } = report.answer;
  const first = [plan!.id, next!.id, "series-mono", "stereo-unit"];
  const order = choiceOrder(view);
  expect(order.first).toEqual(first);
  expect([...order.first, ...order.rest].sort()).toEqual([...view.bench.player.choices].sort());
  expect(first.map((id) => choiceRank(view, id))).toEqual([
    "the answer",
    "next best",
    "",
    "the measure of width",
  ]);
});

test("what was kept or recorded comes ahead of the usual ones", () => {
  const recorded = { source: "real.wav" } as unknown as Report["routings"][number]["recorded"];
  const [first] = report.routings;
  const real = { ...first, id: "real", label: "Real", build: null, recorded: recorded! };
  const kept = { ...first, id: "kept-1", label: "As it was" };
  const view = viewOf({ ...report, routings: [...report.routings, kept, real] });
  Object.assign(view.bench, { kept: [{ id: "kept-1", label: "As it was", routing: "parallel" }] });
  const { plan, next } = report.answer;
  expect(choiceOrder(view).first.slice(0, 4)).toEqual([plan!.id, next!.id, "kept-1", "real"]);
  expect(["kept-1", "real"].map((id) => choiceRank(view, id))).toEqual(["kept", "the real rig"]);
});

test("the answer over all takes leads, as long as the rig is the one that was compared", () => {
  const view = viewOf(report, { plan: "summed", says: [], next: null });
  const own = report.answer.plan!.id;
  expect(choiceOrder(view).first.slice(0, 2)).toEqual(["summed", own]);
  expect([choiceRank(view, "summed"), choiceRank(view, own)]).toEqual([
    "the answer",
    "the answer on this take alone",
  ]);
  view.bench.desk.edit("a name", [{ set: ["name"], to: "Other" }]);
  expect(choiceRank(view, own)).toBe("the answer");
});

test("two more are not worth a tap", () => {
  const few = reportOf({ "series-mono": monoMeasures, "unit-first": measures(), summed: monoMeasures });
  expect(choiceOrder(viewOf(few))).toEqual({
    first: expect.arrayContaining(["unit-first", "series-mono", "summed", "dry"]),
    rest: [],
  });
});

test("of a whole rig that was kept only what stands against the answer comes first", () => {
  const { plan, next } = report.answer;
  const [first] = report.routings;
  const kept = report.routings.map(({ id }, n) => ({
    id: `kept-${n + 1}`,
    label: `Other: ${id}`,
    routing: id,
  }));
  const routings = [...report.routings, ...kept.map(({ id, label }) => ({ ...first, id, label }))];
  const view = viewOf({ ...report, routings });
  Object.assign(view.bench, { kept });
  const against = kept.find(({ routing }) => routing === plan!.id)!.id;
  expect(choiceOrder(view).first).toEqual([plan!.id, next!.id, against, "series-mono", "stereo-unit"]);
});
