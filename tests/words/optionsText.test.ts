import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { parseRig } from "../../src/rig/file/parseRig.js";
import { allPlansText, optionsText } from "../../src/words/optionsText.js";
import { optionsOf } from "../../src/work/options/optionsOf.js";
import { pedal, rigOf, simpleRig } from "../rigs.js";

const rigs = ["quay-piano", "mill-loft", "ferry-road"].map((name) => {
  const file = new URL(`../../fixtures/rigs/${name}.yaml`, import.meta.url);
  return parseRig(readFileSync(file, "utf8"), name);
});

test.each([80, 100])("every cable, part and caution stands in the text, within %i columns", (columns) => {
  for (const rig of rigs) {
    const options = optionsOf(rig, null);
    const text = optionsText(options, columns);
    for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(columns);
    const flat = text.replace(/\s+/g, " ");
    for (const { id, label, build } of options.routings) {
      expect(flat).toContain(`${id}: ${label}`);
      for (const { from, fromJack, to, toJack } of build?.cables ?? []) {
        expect(flat).toContain(`${from}, ${fromJack} > ${to}, ${toJack}`);
      }
      for (const { what } of build?.parts ?? []) expect(flat).toContain(what);
      for (const caution of build?.cautions ?? []) expect(flat).toContain(caution);
    }
  }
});

test("a caution that every wiring has is told once", () => {
  const text = optionsText(optionsOf(rigs[0], null), 100).replace(/\s+/g, " ");
  expect(text.split("Never lift the mains safety earth").length - 1).toBe(1);
  expect(text.indexOf("Never lift the mains safety earth")).toBeGreaterThan(
    text.indexOf("For each wiring above"),
  );
});

test("a sheet of one routing as a person reads it", async () => {
  await expect(optionsText(optionsOf(rigs[0], ["parallel"]), 80)).toMatchFileSnapshot("options-80.txt");
});

test("what a rig cannot have is told with the reason", () => {
  const noSplit = simpleRig({ pedals: [simpleRig().pedals[1]] });
  const text = optionsText(optionsOf(noSplit, null), 100);
  expect(text).toContain("Not possible");
  expect(text).toMatch(/dual-mono: No pedal of this rig has a stereo output/);
});

const three = rigOf([
  pedal("Wash", "chorus", "mono-to-stereo"),
  pedal("Wobble", "tremolo", "mono"),
  pedal("Grit", "overdrive", "mono"),
  pedal("Tank", "spring", "mono"),
]);

test.each([80, 100])(
  "plans of three units stand in one list within %i columns, with what is left out",
  (columns) => {
    const options = optionsOf(three, null, { mixed: 12, places: null });
    for (const text of [optionsText(options, columns), allPlansText(options, columns)])
      for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(columns);
    const flat = allPlansText(options, columns).replace(/\s+/g, " ");
    for (const { id } of options.routings) expect(flat).toContain(id);
    for (const { what, reason } of options.leftOut) expect(flat).toContain(`${what}: ${reason}`);
    expect(options.mixedPlans.shown).toBe(12);
    expect(flat).toContain(`${options.mixedPlans.total - 12} more plans`);
    expect(flat).not.toContain("cables:");
  },
);

test("a rig with one unit has no plans that mix places, and nothing is said of them", () => {
  const options = optionsOf(simpleRig(), null, { mixed: 3, places: null });
  expect(options.mixedPlans).toEqual({ shown: 0, total: 0 });
  expect(optionsText(options, 100)).not.toContain("--all");
});

/** The figures are held by tests/published/pickupCircuit.test.ts and tests/work/levels/loading.test.ts. */
test("what the pickup has left stands in the sheet, by either splitter", () => {
  const text = optionsText(optionsOf(rigs[2], ["parallel"]), 100).replace(/\s+/g, " ");
  expect(text).toMatch(
    /the pickup has a resonance of \+7\.0 dB at 3\.3 kHz and -3 dB at 5\.2 kHz, Instrument > Splitter/,
  );
  expect(text).toMatch(
    /a passive one takes 1\.63 dB \(no resonance left and -3 dB at 3 kHz\); by the passive one/,
  );
  const unknown = optionsText(optionsOf(rigs[1], ["parallel"]), 100).replace(/\s+/g, " ");
  expect(unknown).toContain("Instrument is taken as a resistance: the rig gives no henries");
});
