import { expect, test } from "vitest";
import { openOffline } from "../../../src/node/crosscheck/openOffline.js";
import type { ReturnTrims, Rig } from "../../../src/rig/model/rig.js";
import { chooseRoutings } from "../../../src/rig/routings/chooseRoutings.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { balanceWords, verdictWords } from "../../../src/words/crosscheckWords.js";
import { withCheckedReturns } from "../../../src/work/crosscheck/checkedSound.js";
import { type CrosscheckedRouting, crosscheck } from "../../../src/work/crosscheck/crosscheck.js";
import { crosscheckSchemaVersion, missedFault } from "../../../src/work/crosscheck/crosscheckReport.js";
import { pedal, rigOf } from "../../rigs.js";
import { demoNames, demoRig } from "./demoRig.js";
import { takeOf } from "./rendered.js";

const rateHz = 16_000;
const openContext = await openOffline();
const take = takeOf(0.5, rateHz);
const ids = ["series-mono", "parallel", "parallel-after"];

/** Checked with its returns as they are measured, and then turned. */
async function balanced(rig: Rig, turned: (trims: ReturnTrims) => ReturnTrims = (trims) => trims) {
  const sound = { take, rateHz, clips: new Map() };
  const { rig: measured } = await withCheckedReturns(rig, chooseRoutings(rig, ids, null), sound);
  const given = { ...measured, returnTrims: turned(measured.returnTrims ?? {}) };
  const { routings } = chooseRoutings(given, ids, null);
  return crosscheck({
    ...sound,
    rig: given,
    routings,
    take: { samples: take, rateHz },
    openContext,
    renderer: "library",
  });
}

const ofParallel = (found: readonly CrosscheckedRouting[]) =>
  found.find(({ id }) => id === "parallel")!.balance;

/**
 * The rule by an independent engine: at the buses, with and without the effect, a unit that returns is as loud against the
 * dry sound as in line. Steps of 0.1 dB leave 0.05 dB, and mill-loft's delay leaks dry sound into its return.
 */
test.each(demoNames)("%s: returns that are left open are as loud as in line", async (name) => {
  const found = await balanced(demoRig(name));
  const judged = found.flatMap(({ balance }) => balance);
  expect(judged.length).toBe(name === "mill-loft" ? 4 : 2);
  for (const { unit, hereDb, inLineDb, withinTolerance, notJudged } of judged) {
    expect({ unit, withinTolerance, notJudged }).toEqual({ unit, withinTolerance: true, notJudged: null });
    expect(Math.abs(hereDb! - inLineDb!)).toBeLessThan(name === "mill-loft" ? 0.15 : 0.06);
  }
  expect(verdictWords(found)).toContain(`${judged.length} returns judged, all as in line.`);
});

test.each(demoNames)("%s: a return that is set 0.3 dB wrong is told, and by how much", async (name) => {
  const wrong = (trims: ReturnTrims): ReturnTrims => {
    const [[unit, trim]] = Object.entries(trims.parallel);
    return { ...trims, parallel: { ...trims.parallel, [unit]: { ...trim, trimDb: trim.trimDb + 0.3 } } };
  };
  const [right, found] = [await balanced(demoRig(name)), await balanced(demoRig(name), wrong)];
  const [{ unit, hereDb, withinTolerance }] = ofParallel(found);
  expect(withinTolerance).toBe(false);
  // What a unit cannot kill of its dry sound is louder as well.
  expect(Math.abs(hereDb! - ofParallel(right)[0].hereDb! - 0.3)).toBeLessThan(0.05);
  expect(found.every((routing) => routing.withinTarget)).toBe(true);
  expect(balanceWords(found, "the other").join("\n")).toMatch(new RegExp(`parallel: ${unit} .*: MISSED\\.`));
  const report = {
    schemaVersion: crosscheckSchemaVersion,
    rig: { name, playsInto: "stereo-desk" },
    take: { file: "take.wav", sha256: "", rateHz, frames: 8000, playedFrames: 8000, notices: [] },
    against: "the other",
    routings: found,
  } as const;
  expect(missedFault(report)?.message).toContain(`parallel: ${unit} is`);
});

const swing = pedal("Swing", "tremolo", "mono-to-stereo", { spreadDegrees: 180 });

test("a unit at mix 1 has no dry sound to go by: it is told, and not judged", async () => {
  const [balance] = ofParallel(
    await balanced(rigOf([swing, pedal("Echo", "delay", "mono", { mix: 1, delayMs: 40 })])),
  );
  expect(balance).toMatchObject({ unit: "Echo", inLineDb: null, withinTolerance: null, notJudged: "no-dry" });
});

test("what the rig states itself is not judged", async () => {
  const stated = rigOf([swing, pedal("Echo", "delay", "mono", { mix: 0.3, delayMs: 40 })], {
    mixer: { dryDb: 0, returnDb: -9, returnPan: 0 },
  });
  const found = await balanced(stated);
  expect(found.flatMap(({ balance }) => balance)).toEqual([]);
  expect(balanceWords(found, "the other")).toEqual([]);
  expect(routingsOf(stated).length).toBeGreaterThan(found.length);
});
