import type { HandBox, Pedal, Rig } from "../model/rig.js";
import type { RigEdit } from "./editRig.js";
import type { Path } from "./yaml.js";

/** Keys of a pedal that can be turned, besides its settings. */
const unitKeys = [
  "latencyMs",
  "levelDb",
  "invertsPolarity",
  "canGoFullyWet",
  "dryLeakDb",
] as const satisfies readonly (keyof Pedal)[];
const mixerKeys = ["dryDb", "returnDb", "returnPan"] as const satisfies readonly (keyof Rig["mixer"])[];
const inputKeys = ["gainDb", "pan"] as const;

/**
 * What of a rig file changes where knobs were turned: both rigs have the same pedals in the same order, and the same
 * boxes and cables drawn by hand.
 */
export function turnedEdits(before: Rig, after: Rig): readonly RigEdit[] {
  const pedals = after.pedals.flatMap((pedal, n) => {
    const was = before.pedals[n];
    if (!was || was === pedal) return [];
    return [
      ...anyChanged(was.settings, pedal.settings, ["pedals", n, "settings"]),
      ...changed(was, pedal, unitKeys, ["pedals", n]),
    ];
  });
  return [
    ...pedals,
    ...changed(before.mixer, after.mixer, mixerKeys, ["mixer"]),
    ...(["stereoUnit", "secondUnit"] as const).flatMap((which) => differences(before, after, which)),
    ...anyChanged(before.places, after.places, ["places"]),
    ...drawn(before, after),
  ];
}

/** Of other units, by the name of their pedal. */
const differences = (before: Rig, after: Rig, which: "stereoUnit" | "secondUnit"): readonly RigEdit[] =>
  Object.entries(after[which]).flatMap(([name, settings]) =>
    anyChanged(before[which][name] ?? {}, settings, [which, name]),
  );

const drawn = (before: Rig, after: Rig): readonly RigEdit[] =>
  Object.entries(after.wirings).flatMap(([id, { boxes }]) =>
    Object.entries(boxes).flatMap(([box, hand]) =>
      boxEdits(before.wirings[id]?.boxes[box], hand, ["wirings", id, "boxes", box]),
    ),
  );

function boxEdits(was: HandBox | undefined, now: HandBox, path: Path): readonly RigEdit[] {
  if (was?.box === "pedal" && now.box === "pedal")
    return anyChanged(was.settings, now.settings, [...path, "settings"]);
  if (was?.box !== "mixer" || now.box !== "mixer") return [];
  return now.inputs.flatMap((input, n) =>
    changed(was.inputs[n] ?? input, input, inputKeys, [...path, "inputs", n]),
  );
}

/** Every key that is there now. */
const anyChanged = (
  before: Readonly<Record<string, unknown>>,
  after: Readonly<Record<string, unknown>>,
  path: Path,
): readonly RigEdit[] => changed(before, after, Object.keys(after), path);

function changed<T extends object>(
  before: T,
  after: T,
  keys: readonly (keyof T)[],
  path: Path,
): readonly RigEdit[] {
  return keys
    .filter((key) => before[key] !== after[key])
    .map((key) => ({ set: [...path, key], to: written(after[key]) }));
}

/** As a person would write it; what is not said is left out. */
const written = (value: unknown): unknown =>
  typeof value === "number" ? Number(value.toPrecision(6)) : (value ?? undefined);
