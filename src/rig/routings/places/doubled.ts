import type { Signal } from "../board.js";
import { secondUnit } from "../otherUnits.js";
import { twoOfEach } from "../unitWords.js";
import type { PlaceRule } from "./placeRule.js";

/** Two of the unit, one a side. The second has knobs of its own where the rig's `secondUnit` says so. */
export const doubled: PlaceRule = {
  uniform: {
    id: "dual-mono",
    label: (units) => `${twoOfEach(units)}, one a side`,
    says: () => "A unit for each side: keeps order and width, costs a second unit, its space and its outlet.",
  },
  part: ({ two }) => `${two} one a side`,
  does: () => "two, one a side",
  hasBoxes: false,
  isBranch: false,
  keepsApart: true,
  effort: { adding: 3, shaping: 3 },
  around: null,
  inRow: ({ board, rig, branches }, signal) => {
    let [left, right] = signal;
    for (const pedal of branches.flat()) {
      left = board.unit(pedal, left, `${pedal.name} (left)`);
      right = board.unit(secondUnit(pedal, rig), right, `${pedal.name} (right)`);
    }
    return [left, right] satisfies Signal;
  },
};
