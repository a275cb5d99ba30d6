import { capital } from "../../../text/words.js";
import { inRow } from "../inRow.js";
import { unitWords } from "../unitWords.js";
import type { PlaceRule } from "./placeRule.js";

/** Ahead of the first stereo pedal, in the order of the rig; the stereo pedals then act on the unit's sound. */
export const first: PlaceRule = {
  uniform: {
    id: "unit-first",
    label: (units) => `${capital(unitWords(units))} first`,
    says: () => "Ahead of the split, in the order of the rig: width stays, the order and so the tone change.",
  },
  part: ({ one }) => `${one} first`,
  does: () => "ahead of the split",
  hasBoxes: false,
  isBranch: false,
  keepsApart: false,
  effort: { adding: 2, shaping: 0 },
  inRow: null,
  around: ({ board, branches }, signal) => ({
    signal: inRow(board, branches.flat(), signal),
    behind: (sides) => sides,
  }),
};
