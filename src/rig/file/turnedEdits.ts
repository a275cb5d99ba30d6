import type { Pedal, Rig } from "../model/rig.js";
import type { RigEdit } from "./editRig.js";

/** Keys of a pedal that can be turned, besides its settings. */
const unitKeys = [
  "latencyMs",
  "levelDb",
  "invertsPolarity",
  "canGoFullyWet",
  "dryLeakDb",
] as const satisfies readonly (keyof Pedal)[];
const mixerKeys = ["dryDb", "returnDb", "returnPan"] as const satisfies readonly (keyof Rig["mixer"])[];

/** What of a rig file changes where knobs were turned: both rigs have the same pedals, in the same order. */
export function turnedEdits(before: Rig, after: Rig): readonly RigEdit[] {
  const pedals = after.pedals.flatMap((pedal, n) => {
    const was = before.pedals[n];
    if (!was || was === pedal) return [];
    return [
      ...changed(was.settings, pedal.settings, Object.keys(pedal.settings), ["pedals", n, "settings"]),
      ...changed(was, pedal, unitKeys, ["pedals", n]),
    ];
  });
  return [...pedals, ...changed(before.mixer, after.mixer, mixerKeys, ["mixer"])];
}

function changed<T extends object>(
  before: T,
  after: T,
  keys: readonly (keyof T)[],
  path: readonly PropertyKey[],
): readonly RigEdit[] {
  return keys
    .filter((key) => before[key] !== after[key])
    .map((key) => ({ set: [...path, key], to: written(after[key]) }));
}

/** As a person would write it; what is not said is left out. */
const written = (value: unknown): unknown =>
  typeof value === "number" ? Number(value.toPrecision(6)) : (value ?? undefined);
