import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { inLine, walk } from "./walk.js";

/** The trap: both sides summed into the units, their output split again. The width made before is gone. */
export function summed(rig: Rig): DrawnRouting {
  return walk(rig, (board, units, signal, suffix) => {
    const sum = board.sum(signal, `Summing box${suffix}`);
    const [left, right] = board.split(inLine(board, units, sum), 2, `Splitter${suffix}`);
    return [left!, right!];
  });
}
