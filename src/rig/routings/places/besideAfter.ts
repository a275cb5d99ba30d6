import { capital } from "../../../text/words.js";
import { branchReturns, sumBeside } from "../returns.js";
import { unitWords } from "../unitWords.js";
import type { PlaceRule } from "./placeRule.js";

/**
 * Where the unit stands: left and right are each split, to a stereo mixer and to a summing box that feeds the unit. It
 * runs fully wet and returns to both buses. The order of the rig is kept; what follows is fed by the mixer.
 */
export const besideAfter: PlaceRule = {
  uniform: {
    id: "parallel-after",
    label: (units) => `${capital(unitWords(units))} beside, after a sum`,
    says: (wet) =>
      `Left and right go on; their sum feeds the unit, ${wet}, which returns to both sides. Keeps the order.`,
  },
  part: ({ one }) => `${one} beside after a sum`,
  does: (wet) => `${wet} on the sum of both sides, back into both`,
  hasBoxes: true,
  isBranch: true,
  keepsApart: true,
  effort: { adding: 1, shaping: 4 },
  around: null,
  inRow: ({ board, rig, trims, branches, suffix }, signal) => {
    const { main, feeds } = sumBeside(board, signal, branches.length, suffix);
    const returns = branchReturns({ board, rig, trims, branches }, feeds);
    return board.mixer(main, returns, { dryDb: rig.mixer.dryDb, outputs: 2, label: `Mixer${suffix}` });
  },
};
