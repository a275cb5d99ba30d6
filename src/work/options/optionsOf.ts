import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings, type MorePlans, noMore } from "../../rig/routings/chooseRoutings.js";
import { leftOut } from "../../rig/routings/leftOut.js";
import { mixedPlans } from "../../rig/routings/mixedPlans.js";
import { buildSheet } from "../../rig/wiring/buildSheet.js";
import { loadingOf } from "../levels/loading.js";
import { type OptionsReport, optionsSchemaVersion } from "./optionsReport.js";

/**
 * Every routing of a rig and how to build it.
 * @param words  of the routings wanted; null for the eight and those of the rig file
 * @param more   plans beside those
 * @example
 * ```ts
 * import { optionsOf, readRig } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * for (const { id, build } of optionsOf(rig, null).routings) console.log(id, build?.price, build?.cables);
 * ```
 */
export function optionsOf(
  rig: Rig,
  words: readonly string[] | null,
  more: MorePlans = noMore,
): OptionsReport {
  const { routings } = chooseRoutings(rig, words, null, more);
  const mixed = mixedPlans(rig, more.mixed);
  return {
    schemaVersion: optionsSchemaVersion,
    rig: { name: rig.name, playsInto: rig.playsInto },
    routings: routings.map(({ id, label, says, reason, wiring, cautions }) => ({
      id,
      label,
      says,
      possible: wiring !== null,
      reason,
      build: wiring === null ? null : buildSheet(rig, { wiring, cautions }),
      loading: wiring === null ? null : loadingOf(wiring, rig),
    })),
    mixedPlans: { shown: mixed.plans.length, total: mixed.total },
    leftOut: leftOut(rig),
  };
}
