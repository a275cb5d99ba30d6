import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import type { Signal } from "./board.js";
import { stereoTwin } from "./monoUnits.js";
import { walk } from "./walk.js";

/** A stereo unit of the same kind in each mono unit's place: the reference for width. */
export function stereoUnit(rig: Rig): DrawnRouting {
  return walk(rig, (board, units, signal) =>
    units.reduce<Signal>(
      (into, pedal) => board.pedal(stereoTwin(pedal, rig), into, { isUnit: true }),
      signal,
    ),
  );
}
