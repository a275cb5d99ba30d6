import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { inLine, walk } from "./walk.js";

/** The mono units on the left side only, the right side straight through. */
export function oneSide(rig: Rig): DrawnRouting {
  return walk(rig, (board, units, signal) => [inLine(board, units, [signal[0]])[0], signal[1]]);
}
