import fc from "fast-check";
import { expect, test } from "vitest";
import { choiceKey } from "../../../src/page/panels/choiceKey.js";
import { neededWords, share } from "../../../src/page/panels/trial/trialWords.js";
import { settingName } from "../../../src/page/widgets/settingName.js";
import { fromSlider, toSlider } from "../../../src/page/widgets/sliderScale.js";
import { clock, decimal, percent, signed, withUnit } from "../../../src/page/widgets/typeset.js";
import { pedalModels } from "../../../src/rig/pedals/models.js";

const numbers = Object.entries(pedalModels).flatMap(([model, { settings }]) =>
  Object.entries(settings).flatMap(([key, setting]) =>
    "min" in setting ? [{ name: `${model}.${key}`, setting }] : [],
  ),
);

test.each(numbers)("a slider reaches both ends of $name, and stays inside", ({ setting }) => {
  const { min, max } = setting;
  expect(fromSlider(0, setting)).toBe(min);
  expect(fromSlider(400, setting)).toBe(max);
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 400 }), (place) => {
      const value = fromSlider(place, setting);
      expect(value).toBeGreaterThanOrEqual(min);
      expect(value).toBeLessThanOrEqual(max);
      if (setting.whole) expect(Number.isInteger(value)).toBe(true);
    }),
  );
});

/** There and back is off by the rounding of the value at most: three figures on a log scale, a step on a plain one. */
test.each(numbers)("a slider of $name stands where its value is", ({ setting }) => {
  if (setting.whole) return;
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 400 }), (place) => {
      expect(Math.abs(toSlider(fromSlider(place, setting), setting) - place)).toBeLessThanOrEqual(1);
    }),
  );
  expect(toSlider(setting.default, setting)).toBeGreaterThanOrEqual(0);
});

test.each([
  ["lfoHz", "LFO", "Hz"],
  ["decaySeconds", "decay", "s"],
  ["preDelayMs", "pre delay", "ms"],
  ["spreadDegrees", "spread", "°"],
  ["bassDb", "bass", "dB"],
  ["sizeMetres", "size", "m"],
  ["mix", "mix", ""],
  ["pingPong", "ping pong", ""],
])("%s is the %s in %s", (key, name, unit) => {
  expect(settingName(key)).toEqual({ name, unit });
});

test("no setting of a model keeps its unit in its name", () => {
  for (const { settings } of Object.values(pedalModels)) {
    for (const key of Object.keys(settings)) expect(settingName(key).name).toMatch(/^(LFO|[a-z0-9 ]+)$/);
  }
});

test("keys go 1 to 9 by the order of choices, 0 is dry, from the tenth on there is none", () => {
  const choices = [...Array.from({ length: 11 }, (_, n) => `way-${n + 1}`), "dry"];
  expect(choices.map((id) => choiceKey(choices, id))).toEqual([
    "1",
    "2",
    "3",
    "4",
    "5",
    "6",
    "7",
    "8",
    "9",
    null,
    null,
    "0",
  ]);
});

/** Least right answers for p <= 0.05: closed form, sum over j >= k of C(n, j) / 2^n; 1, 2 and 4 trials have none. */
test.each([
  [5, 5],
  [6, 6],
  [7, 7],
  [8, 7],
  [10, 9],
  [12, 10],
  [15, 12],
  [16, 12],
  [20, 15],
  [25, 18],
  [30, 20],
  [50, 32],
  [100, 59],
])("of %i trials, %i right answers are told as needed", (trials, right) => {
  expect(neededWords(trials)).toMatch(new RegExp(`^${right} of ${trials} right or more`));
});

test("too few trials are told as such", () => {
  for (const trials of [1, 2, 3, 4]) expect(neededWords(trials)).toContain("even a full score");
});

/** 9 of 10: 11/1024; 12 of 12: 1/4096; 6 of 12: 2510/4096. Closed form. */
test("probabilities have two figures", () => {
  expect(share(11 / 1024)).toBe("1.1\u00a0%");
  expect(share(1 / 4096)).toBe("0.024\u00a0%");
  expect(share(2510 / 4096)).toBe("61\u00a0%");
  expect(share(1)).toBe("100\u00a0%");
});

test("numbers are set with a true minus and a dash for none", () => {
  expect(decimal(-1.25, 1)).toMatch(/^\u22121\.[23]$/);
  expect(decimal(-0.01, 1)).toBe("0.0");
  expect(signed(0.04, 1)).toBe("0.0");
  expect(signed(2, 1)).toBe("+2.0");
  expect(withUnit(decimal(null, 1), "dB")).toBe("\u2013");
  expect(percent(0.87)).toBe("87");
});

test("times are clocks", () => {
  expect(clock(0)).toBe("0:00.0");
  expect(clock(3.24)).toBe("0:03.2");
  expect(clock(59.96)).toBe("1:00.0");
  expect(clock(61.5)).toBe("1:01.5");
});
