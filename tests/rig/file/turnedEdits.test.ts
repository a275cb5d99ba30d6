import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { editRig } from "../../../src/rig/file/editRig.js";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import { turnedEdits } from "../../../src/rig/file/turnedEdits.js";
import { type Knob, knobsOf } from "../../../src/rig/knobs/knobs.js";
import type { SettingValue } from "../../../src/sound/dsp/kernel.js";

/** A value that it does not have; null where there is no other. */
function otherValue({ setting, value }: Knob): SettingValue | null {
  if ("file" in setting) return null;
  if ("choices" in setting) return setting.choices.find((choice) => choice !== value) ?? null;
  if (!("min" in setting)) return value !== true;
  const { min, max, whole } = setting;
  return (
    [min, max, (min + max) / 2]
      .map((each) => (whole ? Math.round(each) : each))
      .find((each) => each !== value) ?? null
  );
}

/** The file holds six digits. */
const rounded = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value), (_key, each) =>
    typeof each === "number" ? Number(each.toPrecision(5)) : each,
  );

/** The law of the page's knobs: the text that was turned reads as the rig that was turned. What is set stands in it, comments stay. */
test.each(["ferry-road", "mill-loft", "quay-piano"])(
  "%s: every knob that a sweep can turn turns the text",
  (name) => {
    const text = readFileSync(new URL(`../../../fixtures/rigs/${name}.yaml`, import.meta.url), "utf8");
    const rig = parseRig(text, name);
    let turned = 0;
    for (const knob of knobsOf(rig)) {
      const value = otherValue(knob);
      if (value === null) continue;
      const wanted = knob.turn(rig, value);
      const edits = turnedEdits(rig, wanted);
      expect(edits.length, knob.path).toBeGreaterThan(0);
      expect(rounded(parseRig(editRig(text, edits), name)), knob.path).toEqual(rounded(wanted));
      turned++;
    }
    expect(turned).toBeGreaterThan(40);
  },
);
