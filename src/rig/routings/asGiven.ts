import type { Rig } from "../model/rig.js";
import { type Drawn, inLine, walk } from "./walk.js";

/** A rig without a mono unit after the split: its one wiring, in its own order. */
export function asGiven(rig: Rig): Drawn {
  return walk(rig, inLine);
}
