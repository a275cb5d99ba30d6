import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { parseRig } from "../../src/rig/file/parseRig.js";
import type { Rig } from "../../src/rig/model/rig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { loadingNote } from "../../src/rig/wiring/loadingNote.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import { levelsText } from "../../src/words/levelsText.js";
import { gainStaging } from "../../src/work/levels/gainStaging.js";
import { type LevelsReport, levelsSchemaVersion } from "../../src/work/levels/levelsReport.js";
import { loadingOf } from "../../src/work/levels/loading.js";
import { withAllOff } from "../../src/work/switches/states.js";
import { instrument, simpleRig } from "../rigs.js";
import { sine } from "../signals.js";

beforeAll(() => initialiseFft());

const rateHz = 8000;
const take = sine({ frequencyHz: 250, rateHz, lengthSeconds: 1, peakDbfs: -6 });

function reportOf(rig: Rig, only: (id: string) => boolean = () => true): LevelsReport {
  const wirings = routingsOf(rig).flatMap(({ id, label, wiring }) =>
    wiring && only(id) ? [{ id, label, wiring }] : [],
  );
  const levelled = gainStaging({ rig, wirings, take, rateHz, clips: new Map() });
  return {
    schemaVersion: levelsSchemaVersion,
    rig: { name: rig.name, playsInto: rig.playsInto },
    take: { file: "sine.wav", sha256: "", rateHz, frames: take.length, notices: [] },
    reference: rig.reference,
    loadingNote: loadingNote(
      rig,
      wirings.map(({ wiring }) => wiring),
    ),
    routings: wirings.map(({ label, wiring }, n) => ({
      ...levelled[n],
      label,
      loading: loadingOf(wiring, rig),
      loadingWhenOff: loadingOf(withAllOff(wiring), rig),
    })),
  };
}

const rig = (name: string): Rig => {
  const file = new URL(`../../fixtures/rigs/${name}.yaml`, import.meta.url);
  return parseRig(readFileSync(file, "utf8"), name);
};

test.each([80, 100])("every cable and sum stands in the text, within %i columns", (columns) => {
  for (const name of ["quay-piano", "mill-loft", "ferry-road"]) {
    const report = reportOf(rig(name));
    const text = levelsText(report, columns);
    for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(columns);
    for (const { id, sums } of report.routings) {
      expect(text).toMatch(new RegExp(`^${id} +-`, "m"));
      for (const { box } of sums) expect(text).toContain(`${box}: branches of`);
    }
  }
});

test("one routing as a person reads it", async () => {
  const report = reportOf(rig("ferry-road"), (id) => id === "parallel");
  await expect(levelsText(report, 80)).toMatchFileSnapshot("levels-80.txt");
});

test("a rig that states nothing: levels in dBFS alone, and what would be needed for the rest", () => {
  const text = levelsText(reportOf(simpleRig()), 100);
  expect(text).toContain("The rig gives no reference");
  expect(text).not.toMatch(/ {2}dBu\b/);
  expect(text).toContain("Not given for loading: Instrument: outputOhms; Swing: inputOhms");
  // No all-clear where nobody stated a limit.
  expect(text).not.toMatch(/nothing$/m);
  expect(text).toMatch(/^series-mono .* not known$/m);
});

test("a take that clips already is told where levels are, and boxes without a limit by name", () => {
  const report = reportOf(rig("ferry-road"), (id) => id === "dual-mono");
  const clipped = { ...report, take: { ...report.take, notices: ["clipped at one place, first at 0.40 s"] } };
  expect(levelsText(clipped, 100)).toContain("The take clipped at one place, first at 0.40 s.");
  expect(levelsText(report, 100)).toMatch(/^dual-mono .* nothing(?: known)?$/m);
  expect(report.routings[0].limitUnknown).toEqual([]);
});

test("an instrument without henries is told as what it is taken for, and no corner with it", () => {
  const known = rig("ferry-road");
  const report = reportOf(
    { ...known, instrument: instrument({ outputOhms: 9000 }) },
    (id) => id === "parallel",
  );
  const text = levelsText(report, 100).replace(/\s+/g, " ");
  expect(text).toContain(
    "Instrument is taken as a resistance: the rig gives no henries; a pickup's own resonance is not in this.",
  );
  expect(text).toContain("a buffered splitter takes 0.08 dB, a passive one takes 1.65 dB.");
  expect(text).toMatch(/Instrument > Splitter 9 k 1 M -0\.08 600 - /);
  expect(text).not.toContain("resonance at");
});
