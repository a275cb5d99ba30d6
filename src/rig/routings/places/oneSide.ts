import { capital } from "../../../text/words.js";
import { inRow } from "../inRow.js";
import { unitWords } from "../unitWords.js";
import type { PlaceRule } from "./placeRule.js";

/** On the left side only, the right side straight through. */
export const left: PlaceRule = {
  uniform: {
    id: "one-side",
    label: (units) => `${capital(unitWords(units))} on the left only`,
    says: () => "The unit on one side, the other straight through: balance and tone differ left to right.",
  },
  part: ({ one }) => `${one} on the left`,
  does: () => "on the left only",
  hasBoxes: false,
  isBranch: false,
  keepsApart: true,
  effort: { adding: 3, shaping: 5 },
  around: null,
  inRow: ({ board, branches }, signal) => [inRow(board, branches.flat(), [signal[0]])[0], signal[1]],
};

/** On the right side only. */
export const right: PlaceRule = {
  uniform: null,
  part: ({ one }) => `${one} on the right`,
  does: () => "on the right only",
  hasBoxes: false,
  isBranch: false,
  keepsApart: true,
  effort: { adding: 3, shaping: 5 },
  around: null,
  inRow: ({ board, branches }, signal) => [signal[0], inRow(board, branches.flat(), [signal[1]])[0]],
};
