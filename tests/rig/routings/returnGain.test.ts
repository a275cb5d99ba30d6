import { expect, test } from "vitest";
import { returnGainDb } from "../../../src/rig/routings/returnGain.js";
import { pedal, rigOf } from "../../rigs.js";
import { expectWithin } from "../../within.js";

const unit = pedal("Tank", "spring", "mono", { mix: 0.5 });
const rigWith = (mixer: { returnDb: number | null; dryDb: number }) =>
  rigOf([pedal("Swing", "tremolo", "mono-to-stereo"), unit], { mixer: { returnPan: 0, ...mixer } });

/** Equal-power pan at the centre takes 10 log10(2) dB (W3C StereoPannerNode), which is given back; steps of 0.1 dB. */
test("a unit at mix 0.5 beside nothing: as loud as the dry sound, 3.0 dB", () => {
  expect(returnGainDb(unit, rigWith({ returnDb: null, dryDb: 0 }), [])).toBe(3);
});

/** Law: wet to dry stays where the dry sound is turned, for the return goes with it. */
test.each([-12, -3.5, 4])("a dry sound at %f dB takes the return along", (dryDb) => {
  expectWithin(returnGainDb(unit, rigWith({ returnDb: null, dryDb }), []), 3 + dryDb, 1e-9, "dB");
});

/** Law: what the pedals beside it add or take by their output level, the return adds or takes. */
test.each([
  [[-6], -6],
  [[4], 4],
  [[-6, 2.5], -3.5],
])("pedals beside it at levels of %j dB", (levelsDb, expectedDb) => {
  const rig = rigWith({ returnDb: null, dryDb: 0 });
  const beside = levelsDb.map((levelDb, n) => pedal(`P${n}`, "boost", "stereo", { gainDb: 0 }, { levelDb }));
  const plain = returnGainDb(
    unit,
    rig,
    levelsDb.map((_, n) => pedal(`P${n}`, "boost", "stereo", { gainDb: 0 })),
  );
  expectWithin(returnGainDb(unit, rig, beside), plain + expectedDb, 0.051, "dB");
});

test("what the rig says is what it is", () => {
  expect(returnGainDb(unit, rigWith({ returnDb: -7.25, dryDb: 3 }), [pedal("P", "boost", "stereo")])).toBe(
    -7.25,
  );
});

/** 20 log10(wet / dry) as the unit's own mix gives in line; unity where a unit has no wet or no dry sound; 3.01 dB of pan. */
test.each([
  [0.25, -6.5],
  [0.4, -0.5],
  [1, 3],
  [0, 3],
])("a unit at mix %f returns at %f dB", (mix, expectedDb) => {
  const set = { ...unit, settings: { ...unit.settings, mix } };
  expect(returnGainDb(set, rigWith({ returnDb: null, dryDb: 0 }), [])).toBe(expectedDb);
});

/** Half dry and half wet, unrelated: 10 log10(0.25 + 0.25) = -3.01 dB on each side. */
test("a swing beside it at mix 0.5 leaves the return 3 dB lower", () => {
  const swing = pedal("Swing", "vibrato", "mono-to-stereo", { mix: 0.5 });
  expect(returnGainDb(unit, rigWith({ returnDb: null, dryDb: 0 }), [swing])).toBe(0);
});

test("what was measured is added", () => {
  expect(returnGainDb(unit, rigWith({ returnDb: null, dryDb: 0 }), [], -2.5)).toBe(0.5);
});
