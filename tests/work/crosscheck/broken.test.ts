import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { isLong, runsOf } from "../../longForm.js";
import { anyRig } from "../../rig/file/anyRig.js";
import { demoNames, demoRig } from "./demoRig.js";
import {
  type Fault,
  faults,
  faulty,
  faultyRateHz,
  late,
  mostTelling,
  oneFrameLate,
  rigFor,
} from "./faults.js";
import { checked } from "./rendered.js";

/**
 * Faults of one line each, laid into the second engine's graph alone: every one must turn every routing red in which it
 * can be heard. Law: a check that passes two different wirings tells nothing. In the long form in every routing.
 */
function checkedWith(rig: Rig, fault: Fault) {
  const all = faulty(rig, fault);
  const routings = isLong ? all : mostTelling(all);
  return checked(
    rig,
    { rateHz: faultyRateHz, seconds: 0.2 },
    { routings, built: (wiring) => fault(wiring) ?? wiring },
  );
}

/** What can be heard of settings of chance: what is at its end or next to silent could not be told by anyone. */
const audible: Readonly<Record<string, readonly [number, number]>> = {
  mix: [0.2, 0.8],
  feedback: [0.2, 0.8],
  delayMs: [5, 90],
  depth: [0.3, 1],
  depthMs: [0.3, 2],
  toneHz: [2000, 20_000],
  bassDb: [-6, 6],
  trebleDb: [-6, 6],
  gainDb: [-6, 12],
};

const between = (value: number, [least, most]: readonly [number, number]): number =>
  Math.max(least, Math.min(most, value));

const heard = (rig: Rig): Rig => ({
  ...rigFor(oneFrameLate, rig),
  mixer: { ...rig.mixer, dryDb: 0, returnDb: -6 },
  pedals: rig.pedals.map((each) => ({
    ...each,
    levelDb: between(each.levelDb, [-6, 6]),
    latencyMs: between(each.latencyMs, [0, 3]),
    settings: Object.fromEntries(
      Object.entries(each.settings).map(([key, value]) => [
        key,
        typeof value === "number" && key in audible ? between(value, audible[key]) : value,
      ]),
    ),
  })),
});

/** A split and a unit behind it, with something that swings and something that is fed back. */
const hasAll = (rig: Rig): boolean =>
  [faults["1 % of feedback"], faults["1 degree of an LFO"]].every((fault) => faulty(rig, fault).length > 4);

const ofChance = fc
  .sample(anyRig(4).map(heard).filter(hasAll), { seed: 15, numRuns: runsOf(2) })
  .map((rig) => [`a rig of chance: ${rig.pedals.map(({ model }) => model).join(", ")}`, rig] as const);

describe.each([...demoNames.map((name) => [name, demoRig(name)] as const), ...ofChance])(
  "%s",
  (_name, rig) => {
    test("without a fault, and with a wire that does nothing: within all limits", async () => {
      for (const found of [
        await checkedWith(rig, (same) => same),
        await checkedWith(rigFor(oneFrameLate, rig), late(0)),
      ])
        for (const { id, rmsDbfs, withinTarget } of found)
          expect({ id, rmsDbfs, withinTarget }).toMatchObject({ withinTarget: true });
    });

    const possible = Object.entries(faults).filter(([, fault]) => faulty(rig, fault).length > 0);
    test.each(possible)("%s is told", async (_what, fault) => {
      const found = await checkedWith(rigFor(fault, rig), fault);
      expect(found.length).toBeGreaterThan(0);
      for (const { id, rmsDbfs, targetDbfs, targetBy, withinTarget } of found)
        expect({ id, rmsDbfs, targetDbfs, targetBy, withinTarget }).toMatchObject({ withinTarget: false });
    });
  },
);
