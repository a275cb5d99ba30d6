import { chooseRoutings } from "../compare/chooseRoutings.js";
import { type Options, optionsSchemaVersion } from "../report/options.js";
import type { Rig } from "../rig/rig.js";
import { loadingOf } from "../staging/loading.js";
import { buildSheet } from "../wiring/buildSheet.js";

/**
 * Every routing of a rig and how to build it.
 * @param words  of the routings wanted; null for all
 */
export function optionsOf(rig: Rig, words: readonly string[] | null): Options {
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
