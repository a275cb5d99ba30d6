import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import type { Signal } from "./board.js";
import { secondUnit } from "./monoUnits.js";
import { walk } from "./walk.js";

/** Two of every mono unit, one a side. The second has knobs of its own where the rig's `secondUnit` says so. */
export function dualMono(rig: Rig): DrawnRouting {
  return walk(rig, (board, units, signal) => {
    let [left, right] = signal;
    for (const pedal of units) {
      const leftName = `${pedal.name} (left)`;
      const rightName = `${pedal.name} (right)`;
      left = board.pedal(pedal, [left], { isUnit: true, id: leftName, label: leftName })[0];
      right = board.pedal(secondUnit(pedal, rig), [right!], {
        isUnit: true,
        id: rightName,
        label: rightName,
      })[0];
    }
    return [left, right!] satisfies Signal;
  });
}
