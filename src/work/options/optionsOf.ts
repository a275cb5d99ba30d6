import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { buildSheet } from "../../rig/wiring/buildSheet.js";
import { loadingOf } from "../levels/loading.js";
import { type OptionsReport, optionsSchemaVersion } from "./optionsReport.js";

/**
 * Every routing of a rig and how to build it.
 * @param words  of the routings wanted; null for all
 * @example
 * ```ts
 * import { optionsOf, readRig } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * for (const { id, build } of optionsOf(rig, null).routings) console.log(id, build?.price, build?.cables);
 * ```
 */
export function optionsOf(rig: Rig, words: readonly string[] | null): OptionsReport {
  const { routings } = chooseRoutings(rig, words, null);
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
  };
}
