import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { parseRig } from "../../src/rig/file/parseRig.js";
import type { Rig } from "../../src/rig/model/rig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import { switchesText } from "../../src/words/switchesText.js";
import { type SwitchSection, sectionOf } from "../../src/work/switches/switchSection.js";
import { noise } from "../signals.js";
import { lookAt } from "../work/switches/presses.js";

beforeAll(() => initialiseFft());

const rateHz = 8000;
const head = {
  rig: "Quay piano",
  takeFile: "noise.wav",
  takeSeconds: 1,
  loadingNote: "Loading is in the sound.",
};
const rig = (name: string): Rig => {
  const file = new URL(`../../fixtures/rigs/${name}.yaml`, import.meta.url);
  return parseRig(readFileSync(file, "utf8"), name);
};
/** What a second of noise tells of the switches of a rig. */
function section(name: string, ids: (id: string) => boolean): SwitchSection {
  const take = noise({ seed: 8, frames: rateHz });
  const possible = routingsOf(rig(name)).filter(({ id, wiring }) => wiring !== null && ids(id));
  return sectionOf(possible.map(({ id }) => lookAt(rig(name), id, take, rateHz)));
}

test.each([80, 100])("a row a switch, every cure and every source, within %i columns", (columns) => {
  for (const name of ["quay-piano", "ferry-road"]) {
    const found = section(name, () => true);
    const text = switchesText(head, found, columns);
    for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(columns);
    const flat = text.replace(/\s+/g, " ");
    for (const { switches } of found.routings) {
      for (const { noticed } of switches) {
        for (const { cure } of noticed) {
          if (cure && cure.kind !== "trim") expect(flat).toContain(`: ${cure.says}`);
        }
      }
    }
    for (const { source } of found.thresholds) expect(flat).toContain(source);
  }
});

test("one routing as a person reads it", async () => {
  const found = section("quay-piano", (id) => id === "parallel");
  await expect(switchesText(head, found, 80)).toMatchFileSnapshot("switches-80.txt");
});

test("a rig without footswitches says so, and that nothing is noticed", () => {
  const empty = { id: "as-given", label: "As it stands", states: 1, allStates: 1, presses: 0, switches: [] };
  const text = switchesText(head, { routings: [empty], thresholds: [] }, 80);
  expect(text).toContain("No footswitch in this wiring.");
  expect(text).toContain("Nothing that a listener would notice.");
});
