import fc from "fast-check";
import { expect, test } from "vitest";
import { openOffline } from "../../../src/node/crosscheck/openOffline.js";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { crosscheck } from "../../../src/work/crosscheck/crosscheck.js";
import { runsOf } from "../../longForm.js";
import { anyRig } from "../../rig/file/anyRig.js";
import { noise } from "../../signals.js";

const openContext = await openOffline();

function checkedAt(rig: Rig, rateHz: number) {
  const [left, right] = [4, 5].map((seed) => noise({ seed, frames: Math.round(0.1 * rateHz), rms: 0.1 }));
  const samples = rig.instrument.outputs === 2 ? { length: left.length, left, right } : left;
  const take = { samples, rateHz };
  return crosscheck({
    rig,
    routings: routingsOf(rig),
    take,
    clips: new Map(),
    openContext,
    renderer: "library",
  });
}

/**
 * Any rig that validates, whatever its settings, levels and loads: no routing that can be built is left out, and the two
 * engines are one within the limits of what is in it. 69 313 Hz is prime: a rate nobody tuned for.
 */
test.each([
  [8000, 2],
  [16_000, 3],
  [69_313, 1],
])("any rig at %i Hz: no routing is skipped, and all are within their limits", async (rateHz, runs) => {
  const isTaken = (rig: Rig) => routingsOf(rig).filter(({ wiring }) => wiring !== null).length > 4;
  const rigs = fc.sample(anyRig(4), { seed: rateHz, numRuns: runsOf(runs) });
  const split = fc.sample(anyRig(4).filter(isTaken), { seed: rateHz, numRuns: runsOf(runs) });
  for (const rig of [...rigs, ...split]) {
    const possible = routingsOf(rig).filter(({ wiring }) => wiring !== null);
    const found = await checkedAt(rig, rateHz);
    expect(found.filter(({ skipped }) => skipped === null).map(({ id }) => id)).toEqual(
      possible.map(({ id }) => id),
    );
    for (const { id, rmsDbfs, targetDbfs, targetBy, skipped, withinTarget } of found) {
      const what = JSON.stringify({ id, rmsDbfs, targetDbfs, targetBy, pedals: rig.pedals });
      if (skipped === null) expect(withinTarget, what).toBe(true);
    }
  }
});
