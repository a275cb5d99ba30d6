import { inRow } from "../inRow.js";
import { areSeveralOfAKind, unitWords } from "../unitWords.js";
import type { PlaceRule } from "./placeRule.js";

/** A stereo unit in its place: the rig's alternative, else one of the same kind. The reference for width. */
export const stereo: PlaceRule = {
  uniform: {
    id: "stereo-unit",
    label: (units) =>
      areSeveralOfAKind(units)
        ? `Stereo units instead of the ${unitWords(units)}`
        : `Stereo ${unitWords(units)} instead`,
    says: () => "A stereo unit in its place: another purchase, and another sound. The reference for width.",
  },
  part: ({ one }) => `stereo ${one}`,
  does: () => "a stereo unit in its place",
  hasBoxes: false,
  isBranch: false,
  keepsApart: true,
  effort: { adding: 4, shaping: 4 },
  around: null,
  inRow: ({ board, branches }, signal) => inRow(board, branches.flat(), signal),
};
