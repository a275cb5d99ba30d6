import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { inLine, walk } from "./walk.js";

/** A rig without a mono unit after the split: its one wiring, in its own order. */
export function asGiven(rig: Rig): DrawnRouting {
  return walk(rig, inLine);
}
