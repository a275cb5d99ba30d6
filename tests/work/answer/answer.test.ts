import fc from "fast-check";
import { expect, test } from "vitest";
import type { Asks, Rig } from "../../../src/rig/model/rig.js";
import { mixedPlans } from "../../../src/rig/routings/mixedPlans.js";
import { planRouting, routingNamed, routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { buildSheet } from "../../../src/rig/wiring/buildSheet.js";
import { measureClip } from "../../../src/sound/measure/stereoMeter.js";
import { answerOf, type FoundSounds } from "../../../src/work/answer/answer.js";
import { asksOf } from "../../../src/work/answer/asks.js";
import { balancedSideShare, meritsOf } from "../../../src/work/answer/merits.js";
import { noAsks, pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { measures } from "../../words/reports.js";

const rateHz = 48_000;
const frames = 96_000;

/** Closed forms: one signal at two levels has no width, unrelated sides have half, whatever their levels. */
test("width is taken with both sides at one energy", () => {
  const [one, two] = [noise({ seed: 1, frames, rms: 0.1 }), noise({ seed: 2, frames, rms: 0.1 })];
  const louder = (x: Float32Array) => x.map((value) => 3 * value);
  const share = (left: Float32Array, right: Float32Array) =>
    balancedSideShare(measureClip({ rateHz, channels: [left, right] }));
  expectWithin(share(one, louder(one)), 0, 1e-6);
  expectWithin(share(one, louder(two)), 0.5, 0.01);
  expectWithin(
    share(
      one,
      one.map((value) => -0.5 * value),
    ),
    1,
    1e-6,
  );
  expect(share(one, new Float32Array(frames))).toBe(0);
  expect(share(new Float32Array(frames), new Float32Array(frames))).toBe(null);
});

const three = (asks: Partial<Asks> = {}, rest: Partial<Rig> = {}): Rig =>
  rigOf(
    [
      pedal("Wash", "chorus", "mono-to-stereo"),
      pedal("Ledger", "delay", "stereo"),
      pedal("Wobble", "tremolo", "mono", {}, { price: 90 }),
      pedal("Grit", "overdrive", "mono", {}, { price: 110 }),
      pedal("Tank", "spring", "mono", { mix: 0.35 }, { price: 240 }),
    ],
    { asks: { ...noAsks, ...asks }, ...rest },
  );

const firstAndBeside = "wobble-first.grit-first.tank-beside";

/** Figures by routing id: correlation and what is lost in mono; the others are as wide as the reference. */
function found(rig: Rig, figures: Readonly<Record<string, readonly [correlation: number, lossDb: number]>>) {
  const routings = [...routingsOf(rig), ...mixedPlans(rig, 6).plans.map((plan) => planRouting(rig, plan))];
  const reports = routings.map(({ id, wiring, cautions }) => {
    const [correlation, foldDownLossDb] = figures[id] ?? [0, 3];
    const sound = measures({ correlation, sideShare: (1 - correlation) / 2, foldDownLossDb });
    return {
      id,
      measures: wiring ? sound : null,
      build: wiring ? buildSheet(rig, { wiring, cautions }) : null,
    };
  });
  const report: FoundSounds = { reference: "stereo-unit", routings: reports };
  return { routings, report };
}

const mono = { "series-mono": [1, 0], summed: [1, 0] } as const;

test("units that shape go first and the tank beside, where the tank's order and one of each are asked", () => {
  const rig = three({ stereo: 0.4, order: ["Tank"], sameUnit: ["Tank"], oneOfEach: true });
  const { routings, report } = found(rig, { ...mono, [firstAndBeside]: [0.5, 0.6] });
  const answer = answerOf(rig, routings, {
    ...report,
    routings: report.routings.filter(({ id }) => !id.includes("after") && !id.includes("+")),
  });
  expect(answer.plan?.id).toBe(firstAndBeside);
  expect(answer.keepsAll).toBe(true);
  expect(answer.plan?.asks.map(({ ask, keeps }) => [ask, keeps])).toEqual([
    ["stereo", true],
    ["order", true],
    ["sameUnit", true],
    ["oneOfEach", true],
  ]);
  const why = new Map(answer.ruledOut.map(({ id, why: reason }) => [id, reason.kind]));
  expect(why.get("unit-first")).toBe("breaks");
  expect(why.get("dual-mono")).toBe("breaks");
  expect(why.get("parallel")).toBe("senseless");
  expect(why.get("one-side")).toBe("leans");
  expect(why.get("stereo-unit")).toBe("not-for-sale");
});

test("every wiring that was rendered is held against every ask, kept or not", () => {
  const rig = three({ stereo: 0.4, order: ["Tank"], oneOfEach: true });
  const { routings, report } = found(rig, mono);
  const { held } = answerOf(rig, routings, report);
  const rendered = report.routings.filter(({ measures: sound }) => sound !== null).map(({ id }) => id);
  expect(held.map(({ id }) => id)).toEqual(rendered);
  const keeps = (id: string) =>
    held.find((each) => each.id === id)!.asks.map(({ ask, keeps: kept }) => [ask, kept]);
  expect(keeps("dual-mono")).toEqual([
    ["stereo", true],
    ["order", true],
    ["oneOfEach", false],
  ]);
  expect(keeps("series-mono")).toEqual([
    ["stereo", false],
    ["order", true],
    ["oneOfEach", true],
  ]);
});

test("asks are held against the cables and the sheet", () => {
  const rig = three({
    order: ["Tank"],
    oneOfEach: true,
    sameUnit: ["Tank"],
    spendAtMost: 100,
    extraBoxesAtMost: 1,
    monoLossDbAtMost: 1,
  });
  const heard = (id: string) => {
    const routing = routingNamed(rig, id);
    if (typeof routing === "string" || !routing.wiring) throw new Error(id);
    const build = buildSheet(rig, { wiring: routing.wiring, cautions: [] });
    const sound = measures({ correlation: 0.2, sideShare: 0.4, foldDownLossDb: 1.4 });
    const merits = meritsOf({ measures: sound, build }, sound);
    return asksOf(rig, { routing, merits }).map(({ ask, keeps, by }) => [ask, keeps, ...by]);
  };
  expect(heard("unit-first")).toEqual([
    ["order", false, "Wash", "Ledger"],
    ["sameUnit", true],
    ["oneOfEach", true],
    ["spendAtMost", true],
    ["extraBoxesAtMost", true],
    ["monoLossDbAtMost", false],
  ]);
  expect(heard("dual-mono").slice(0, 5)).toEqual([
    ["order", true],
    ["sameUnit", true],
    ["oneOfEach", false, "Wobble", "Grit", "Tank"],
    ["spendAtMost", false],
    ["extraBoxesAtMost", false],
  ]);
  // Boxes that nobody priced: kept only as far as is known, that is, not for sure.
  expect(heard(firstAndBeside).slice(0, 4)).toEqual([
    ["order", true],
    ["sameUnit", true],
    ["oneOfEach", true],
    ["spendAtMost", null, "Buffered splitter, 1 in, 2 out", "Stereo mixer, 2 channel pairs"],
  ]);
  expect(heard("stereo-unit").slice(1, 2)).toEqual([["sameUnit", false, "a stereo Tank"]]);
});

test("where nothing keeps all, the answer says what giving up one ask alone would win", () => {
  const rig = three({ stereo: 0.9, order: ["Tank"], oneOfEach: true });
  const { routings, report } = found(rig, {
    ...mono,
    "unit-first": [0.05, 1],
    "dual-mono": [0, 3],
    [firstAndBeside]: [0.5, 0.6],
  });
  const kept = ["series-mono", "unit-first", "dual-mono", "stereo-unit", firstAndBeside];
  const answer = answerOf(
    rig,
    routings.filter(({ id }) => kept.includes(id)),
    report,
  );
  expect(answer.keepsAll).toBe(false);
  expect(answer.givingUp.map(({ ask, unit, wins }) => [ask, unit, wins.id])).toEqual([
    ["order", "Tank", "unit-first"],
    ["oneOfEach", null, "dual-mono"],
    ["stereo", null, firstAndBeside],
  ]);
});

/** A law: kept is said only where every part of the figure is known and within its limit. */
test("no ask is called kept when its figure breaks it or is not known", () => {
  const known = fc.double({ min: 0, max: 10, noNaN: true });
  const sum = fc.record({ known, open: fc.array(fc.constantFrom("Mixer", "Splitter"), { maxLength: 2 }) });
  const figures = fc.record({
    width: fc.option(fc.double({ min: 0, max: 2, noNaN: true })),
    monoLossDb: fc.option(known),
    cost: sum,
    boxes: fc.nat(10),
    outlets: sum,
    milliamps: sum,
    boardCm2: sum,
  });
  const limit = fc.double({ min: 0, max: 10, noNaN: true });
  const limits = fc.record({
    stereo: fc.double({ min: 0, max: 1, noNaN: true }),
    spendAtMost: limit,
    extraBoxesAtMost: fc.nat(10),
    outletsAtMost: limit,
    milliampsAtMost: limit,
    boardCm2AtMost: limit,
    monoLossDbAtMost: limit,
  });
  const routing = planRouting(three(), mixedPlans(three(), 1).plans[0]);
  fc.assert(
    fc.property(figures, limits, (merits, asked) => {
      const keeps = new Map(
        asksOf(three(asked), { routing, merits }).map((found) => [found.ask, found.keeps]),
      );
      const held = (value: number | null, most: number) => (value === null ? null : value <= most);
      const heldSum = ({ known: value, open }: typeof merits.cost, most: number) =>
        value > most ? false : open.length > 0 ? null : true;
      expect(Object.fromEntries(keeps)).toEqual({
        stereo: merits.width === null ? null : merits.width >= asked.stereo,
        spendAtMost: heldSum(merits.cost, asked.spendAtMost),
        extraBoxesAtMost: held(merits.boxes, asked.extraBoxesAtMost),
        outletsAtMost: heldSum(merits.outlets, asked.outletsAtMost),
        milliampsAtMost: heldSum(merits.milliamps, asked.milliampsAtMost),
        boardCm2AtMost: heldSum(merits.boardCm2, asked.boardCm2AtMost),
        monoLossDbAtMost: held(merits.monoLossDb, asked.monoLossDbAtMost),
      });
    }),
    { numRuns: 200 },
  );
});

test("to who asks for stereo, a wiring without any width is no answer while there is another", () => {
  const rig = three({ stereo: 0.9, order: ["Wobble", "Grit", "Tank"], oneOfEach: true });
  const { routings, report } = found(rig, {
    ...mono,
    "unit-first": [0.05, 1],
    "dual-mono": [0.6, 3],
    [firstAndBeside]: [0.5, 0.6],
  });
  const kept = ["series-mono", "summed", "unit-first", "dual-mono", "stereo-unit", firstAndBeside];
  const among = routings.filter(({ id }) => kept.includes(id));
  const answer = answerOf(rig, among, report);
  // All in mono breaks one ask alone, but the one that matters; two of each break two.
  expect(answer.plan?.id).toBe("dual-mono");
  const onlyMono = among.filter(({ id }) => id === "series-mono" || id === "stereo-unit");
  expect(answerOf(rig, onlyMono, report).plan?.id).toBe("series-mono");
});

test("over several takes each wiring counts by its worst", () => {
  const rig = three({ stereo: 0.4 });
  const clean = found(rig, { ...mono, "unit-first": [0.1, 1], "dual-mono": [0.4, 3] });
  const driven = found(rig, { ...mono, "unit-first": [0.9, 1], "dual-mono": [0.4, 2] });
  const kept = ["series-mono", "unit-first", "dual-mono", "stereo-unit"];
  const among = clean.routings.filter(({ id }) => kept.includes(id));
  expect(answerOf(rig, among, clean.report).plan?.id).toBe("unit-first");
  const both = answerOf(rig, among, clean.report, [driven.report]);
  expect(both.plan).toMatchObject({ id: "dual-mono", merits: { monoLossDb: 3 } });
  expectWithin(both.plan!.merits.width, 0.6, 1e-9);
});
