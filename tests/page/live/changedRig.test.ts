import { expect, test } from "vitest";
import { withKnobs, withMixer, withSetting, withUnit } from "../../../src/page/live/changedRig.js";
import { pedal, rigOf } from "../../rigs.js";

const rig = rigOf([pedal("Weir", "tremolo", "mono-to-stereo"), pedal("Room", "plate", "mono")]);

test("a setting changes in its pedal alone, and the rig before it stays as it was", () => {
  const turned = withSetting(rig, "Weir", "lfoHz", 2);
  expect(turned.pedals[0].settings).toEqual({ ...rig.pedals[0].settings, lfoHz: 2 });
  expect(turned.pedals[1]).toBe(rig.pedals[1]);
  expect(rig.pedals[0].settings.lfoHz).not.toBe(2);
});

test.each([
  ["no such pedal", "Sluice", "lfoHz", 2],
  ["no such setting", "Weir", "decaySeconds", 2],
  ["out of bounds", "Weir", "lfoHz", 1e6],
  ["not a number", "Weir", "lfoHz", "fast"],
  ["not finite", "Weir", "lfoHz", Number.NaN],
  ["no such choice", "Weir", "secondOutput", "sideways"],
])("%s is refused", (_name, name, key, value) => {
  expect(() => withSetting(rig, name, key, value)).toThrow(RangeError);
});

test("latency, trim, polarity and leak of a pedal; gains of the mixer", () => {
  const change = { latencyMs: 4, invertsPolarity: true, dryLeakDb: -30 };
  expect(withUnit(rig, "Room", change).pedals[1]).toEqual({ ...rig.pedals[1], ...change });
  expect(() => withUnit(rig, "Hall", change)).toThrow(RangeError);
  expect(withMixer(rig, { returnPan: 0.5 }).mixer).toEqual({ ...rig.mixer, returnPan: 0.5 });
});

test("knobs by their paths, as a sweep turns them", () => {
  const turned = withKnobs(rig, { "mixer.returnPan": 0.5, "Weir.lfoHz": 2, "Room.latencyMs": 4 });
  const byHand = withUnit(withSetting(withMixer(rig, { returnPan: 0.5 }), "Weir", "lfoHz", 2), "Room", {
    latencyMs: 4,
  });
  expect(turned).toEqual(byHand);
  expect(() => withKnobs(rig, { "Hall.mix": 0.5 })).toThrow(RangeError);
});
