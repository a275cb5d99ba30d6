import { describe, expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { type BuildSheet, buildSheet } from "../../../src/rig/wiring/buildSheet.js";
import { simpleRig, soldBox } from "../../rigs.js";

const sheetOf = (rig: Rig, id: string): BuildSheet => {
  const routing = routingsOf(rig).find((r) => r.id === id);
  return buildSheet(rig, { wiring: routing!.wiring!, cautions: routing!.cautions });
};
const supply = (volts: number, milliamps: number) => ({ volts, milliamps });
const boxes: Rig["boxes"] = {
  splitter: [soldBox({ price: 50, supply: supply(9, 10), size: { widthMm: 40, depthMm: 100 } })],
  "summing-box": [soldBox({ price: 30, supply: supply(9, 0), size: { widthMm: 40, depthMm: 90 } })],
  mixer: [soldBox({ price: 120, supply: supply(18, 100), size: { widthMm: 120, depthMm: 100 } })],
};
const [swing, echo] = simpleRig().pedals;
const pedals = [
  { ...swing, supply: supply(9, 60), size: { widthMm: 70, depthMm: 120 } },
  { ...echo, supply: supply(9, 80), size: { widthMm: 70, depthMm: 120 }, price: 200 },
];
const rig = simpleRig({ boxes, pedals });

describe("parts", () => {
  test("parallel: a splitter and a stereo mixer with a pair for the sides and one for the return", () => {
    const { parts, price, extraBoxes } = sheetOf(rig, "parallel");
    expect(parts.map(({ what, toBuy }) => [what, toBuy])).toEqual([
      ["Buffered splitter, 1 in, 2 out", 1],
      ["Stereo mixer, 2 channel pairs", 1],
    ]);
    expect(price).toBe(170);
    expect(extraBoxes).toBe(2);
  });

  test("alike boxes are one row; boxes on hand are not bought, if they will do", () => {
    const drawer = (outputs: number, buffered: boolean): Rig => ({
      ...rig,
      onHand: [{ box: "splitter", count: 1, outputs, inputs: 0, pairs: 0, buffered, mutes: false }],
    });
    const rows = (r: Rig) => sheetOf(r, "parallel-after").parts.filter(({ box }) => box === "splitter");
    const row = (r: Rig) => rows(r)[0];
    expect(row(rig)).toMatchObject({ count: 2, toBuy: 2 });
    expect(row(drawer(2, true))).toMatchObject({ count: 2, toBuy: 1 });
    expect(rows(drawer(4, true)).map(({ what, count, toBuy }) => [what, count, toBuy])).toEqual([
      ["Buffered splitter, 1 in, 4 out", 1, 0],
      ["Buffered splitter, 1 in, 2 out", 1, 1],
    ]);
    expect(row(drawer(1, true))).toMatchObject({ toBuy: 2 });
    expect(row(drawer(2, false))).toMatchObject({ toBuy: 2 });
    expect(sheetOf(drawer(2, true), "parallel-after").price).toBe(50 + 30 + 120);
  });

  test("dual-mono buys a second unit; a stereo unit has no known price", () => {
    expect(sheetOf(rig, "dual-mono")).toMatchObject({ price: 200, extraBoxes: 1 });
    const stereo = sheetOf(rig, "stereo-unit");
    expect(stereo.price).toBeNull();
    expect(stereo.priceUnknown).toEqual(["Stereo Echo"]);
    expect(sheetOf(rig, "unit-first")).toMatchObject({ price: 0, parts: [] });
  });
});

/** Currents add at one voltage; areas are sums of rectangles. */
test("supply by voltage and board area", () => {
  const { supply: rows, boardAreaCm2 } = sheetOf(rig, "parallel");
  expect(rows).toEqual([
    { volts: 9, milliamps: 60 + 80 + 10, outlets: 3 },
    { volts: 18, milliamps: 100, outlets: 1 },
  ]);
  expect(boardAreaCm2).toBe(2 * 84 + 40 + 120);
  expect(sheetOf(simpleRig(), "parallel")).toMatchObject({ supply: [], boardAreaCm2: null });
  expect(sheetOf(simpleRig(), "parallel").supplyUnknown).toHaveLength(4);
});

test("the patch list is every cable in signal order, with plugs", () => {
  const { cables } = sheetOf(rig, "parallel");
  expect(cables).toHaveLength(8);
  expect(cables[0]).toMatchObject({ from: "Instrument", to: "Splitter", plug: "TS 6.35 mm both ends" });
  expect(cables.at(-1)).toMatchObject({
    from: "Mixer",
    fromJack: "out right",
    to: "Stereo desk",
    toJack: "in right",
  });
  expect(cables.at(-1)?.plug).toMatch(/DI box/);
});

/** Facts of the trade: common practice, no source. */
describe("cautions", () => {
  const cautions = (r: Rig, id: string): string => sheetOf(r, id).cautions.join("\n");
  const unit = (change: Partial<typeof echo>): Rig => ({ ...rig, pedals: [swing, { ...echo, ...change }] });

  test("every sheet warns of loud surprises; two amps of earth loops, deferring to a qualified person", () => {
    expect(cautions(rig, "series-mono")).toMatch(/harms hearing/);
    expect(cautions({ ...rig, playsInto: "two-amps" }, "unit-first")).toMatch(
      /Never lift the mains safety earth.*isolating transformer.*qualified person under the local code/,
    );
    expect(cautions(rig, "unit-first")).not.toMatch(/earth/);
  });
  test("a split is buffered and a sum needs a box", () => {
    expect(cautions(rig, "parallel")).toMatch(/buffered splitter.*\n.*Never tie two outputs together/);
    expect(cautions(rig, "unit-first")).not.toMatch(/splitter|tie/);
  });
  test("a unit that cannot go fully wet leaks a comb, with its notches", () => {
    const leaky = unit({ canGoFullyWet: false, dryLeakDb: -12, latencyMs: 1 });
    // Notches at (2k + 1) / (2 tau): 500, 1500, 2500 Hz for 1 ms.
    expect(cautions(leaky, "parallel")).toMatch(
      /1 ms late at -15\.5 dB on both sides.*500 Hz, 1.50 kHz, 2.50 kHz/,
    );
    expect(cautions(leaky, "parallel")).toMatch(/cannot go fully wet/);
    expect(cautions(rig, "parallel")).toMatch(/Run Echo fully wet/);
  });
  test("polarity, and the wet branch switched off", () => {
    expect(cautions(unit({ invertsPolarity: true }), "parallel")).toMatch(/Echo inverts polarity/);
    expect(cautions(rig, "parallel")).toMatch(/Switched off, Echo sends dry signal round the branch/);
    expect(cautions(unit({ whenOff: "muted" }), "parallel")).not.toMatch(/Switched off/);
  });
  test("latency on one side only pulls the image", () => {
    expect(cautions(unit({ latencyMs: 2 }), "one-side")).toMatch(
      /The left side arrives 2 ms after the right/,
    );
    expect(cautions(unit({ latencyMs: 2 }), "dual-mono")).not.toMatch(/arrives/);
  });
});
