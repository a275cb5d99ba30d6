import { describe, expect, test } from "vitest";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { combOf, dryPaths, notchesHz, sideDelayMs } from "../../../src/rig/wiring/dryPaths.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { dbToGain } from "../../../src/sound/dsp/units.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";
import { expectWithin } from "../../within.js";
import { diamonds } from "./diamonds.js";

const leak = { canGoFullyWet: false, dryLeakDb: -12, latencyMs: 2 };
const wiringOf = (id: string, unit = {}): Wiring =>
  routingsOf(simpleRig({ mixer: { dryDb: 0, returnDb: -3, returnPan: 0 } }, unit)).find((r) => r.id === id)!
    .wiring!;

describe("ways of the dry signal", () => {
  test("in line: one way, at the dry gain of the mix, late by the latency", () => {
    expect(dryPaths(wiringOf("series-mono", { latencyMs: 2 }))[0]).toEqual([{ delayMs: 2, gain: 0.6 }]);
  });
  test("beside, with a leak: the direct way and the leak, each at its gains", () => {
    const [left] = dryPaths(wiringOf("parallel", leak));
    expect(left.map(({ delayMs }) => delayMs)).toEqual([0, 2]);
    expectWithin(left[1].gain, dbToGain(-12 - 3) * Math.SQRT1_2, 1e-12);
  });
  /** Closed form: of n diamonds, C(n, k) ways go through k pedals, each at 2^-n g^k, as late as those pedals together. */
  test("few ways are all followed", () => {
    const lateMs = [1, 2, 4, 8];
    const [ways] = dryPaths(diamonds(lateMs));
    expect(ways.map(({ delayMs }) => delayMs).sort((a, b) => a - b)).toEqual(
      Array.from({ length: 16 }, (_, n) => n),
    );
    for (const { gain } of ways) expectWithin(gain, 1 / 16, 1e-12);
  });
  test("of many the strongest are followed, and no more than can be held", () => {
    const lateMs = Array.from({ length: 12 }, (_, n) => 2 ** n / 100);
    const [ways] = dryPaths(diamonds(lateMs, -6));
    const found = new Map(ways.map(({ delayMs, gain }) => [Math.round(delayMs * 100), gain]));
    for (let late = 0; late < 4096; late++) {
      const through = late.toString(2).replaceAll("0", "").length;
      if (through <= 3) expectWithin(found.get(late) ?? 0, dbToGain(-6 * through) / 4096, 1e-12);
    }
    expect(ways.length).toBeLessThan(600);
  });
  test("63 diamonds, 2^63 ways, are followed too", () => {
    const wiring = diamonds(Array.from({ length: 63 }, (_, n) => 0.1 + n * 0.37 + (n * n) / 977));
    expect(dryPaths(wiring)[0].length).toBeLessThan(600);
  });
  test("opposite ways of one length cancel", () => {
    const rig = rigOf(
      [
        pedal("S", "tremolo", "mono-to-stereo", { depth: 0 }),
        pedal("U", "boost", "mono", { gainDb: 0 }, { invertsPolarity: true }),
      ],
      { mixer: { dryDb: 0, returnDb: 10 * Math.log10(2), returnPan: 0 } },
    );
    expect(dryPaths(routingsOf(rig).find((r) => r.id === "parallel")!.wiring!)).toEqual([[], []]);
  });
});

describe("comb", () => {
  test("none without a late copy", () => {
    for (const { wiring } of routingsOf(simpleRig())) expect(wiring && combOf(wiring)).toBeNull();
  });
  test("a leak's delay, level and notches", () => {
    const comb = combOf(wiringOf("parallel", leak));
    expect(comb).toMatchObject({ delayMs: 2, inverted: false, side: "both" });
    expectWithin(comb!.levelDb, -12 - 3 - 10 * Math.log10(2), 1e-9, "dB");
    expect(combOf(wiringOf("parallel", { ...leak, invertsPolarity: true }))?.inverted).toBe(true);
  });
  /** Closed form: y = x + g x(t - tau) has minima at (2k + 1) / (2 tau) for g > 0, and at k / tau for g < 0. */
  test.each([
    [0.5, [1000, 3000, 5000, 7000, 9000], [2000, 4000, 6000, 8000, 10_000]],
    [1, [500, 1500, 2500, 3500, 4500], [1000, 2000, 3000, 4000, 5000]],
    [5, [100, 300, 500, 700, 900], [200, 400, 600, 800, 1000]],
  ])("notches of a copy %s ms late", (delayMs, plain, inverted) => {
    expect(notchesHz(delayMs, false)).toEqual(plain);
    expect(notchesHz(delayMs, true)).toEqual(inverted);
  });
});

test("the side with the unit comes later by its latency", () => {
  expect(sideDelayMs(wiringOf("one-side", { latencyMs: 2 }))).toBe(2);
  expect(sideDelayMs(wiringOf("dual-mono", { latencyMs: 2 }))).toBe(0);
});

/** Common practice, no source: a copy 40 dB under the first moves the sound by 0.09 dB at most, and is not told. */
test.each([
  [-20.5, true],
  [-30, true],
  [-39.9, true],
  [-40.1, false],
])("a late copy at %f dB: told is %s", (levelDb, isTold) => {
  const unit = { ...leak, dryLeakDb: levelDb + 10 * Math.log10(2) };
  const wiring = routingsOf(simpleRig({ mixer: { dryDb: 0, returnDb: 0, returnPan: 0 } }, unit)).find(
    ({ id }) => id === "parallel",
  )!.wiring!;
  const comb = combOf(wiring);
  expect(comb !== null).toBe(isTold);
  if (comb) expectWithin(comb.levelDb, levelDb, 1e-9, "dB");
});
