import { inRow } from "../inRow.js";
import { unitWords } from "../unitWords.js";
import type { PlaceRule } from "./placeRule.js";

/** The trap: both sides summed into the unit, its output split again. The width made before is gone. */
export const summed: PlaceRule = {
  uniform: {
    id: "summed",
    label: (units) => `Summed into the ${unitWords(units)}`,
    says: () =>
      "The trap: both sides summed into the unit and split again. The width made before it is gone.",
  },
  part: ({ one }) => `${one} on the sum`,
  does: () => "on the sum of both sides, split again",
  hasBoxes: true,
  isBranch: false,
  keepsApart: false,
  effort: { adding: 6, shaping: 5 },
  around: null,
  inRow: ({ board, branches, suffix }, signal) => {
    const sum = board.sum(signal, `Summing box${suffix}`);
    const [left, right] = board.split(inRow(board, branches.flat(), sum), 2, `Splitter${suffix}`);
    return [left, right];
  },
};
