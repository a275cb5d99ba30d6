import { capital } from "../../../text/words.js";
import { chainOf } from "../../model/chain.js";
import { isMonoDestination } from "../board.js";
import { branchReturns, splitBeside } from "../returns.js";
import { unitWords } from "../unitWords.js";
import type { PlaceRule } from "./placeRule.js";

/**
 * In a branch from a split ahead of the first stereo pedal, fully wet, back into both buses of a mixer at the end. An
 * instrument with two outputs is split on each side, and the branch gets the sum.
 */
export const beside: PlaceRule = {
  uniform: {
    id: "parallel",
    label: (units) => `${capital(unitWords(units))} beside, from a split`,
    says: (wet) =>
      `The unit runs ${wet} beside the stereo pedals and returns to both sides; it no longer hears them.`,
  },
  part: ({ one }) => `${one} beside`,
  does: (wet) => `${wet} beside the stereo pedals, back into both sides`,
  hasBoxes: true,
  isBranch: true,
  keepsApart: false,
  effort: { adding: 0, shaping: 2 },
  inRow: null,
  around: ({ board, rig, trims, branches }, signal) => {
    const { stereoPedals } = chainOf(rig);
    const { main, feeds } = splitBeside(board, signal, branches.length);
    return {
      signal: main,
      behind: (sides, suffix) => {
        const returns = branchReturns({ board, rig, trims, branches }, feeds, stereoPedals);
        const outputs = isMonoDestination(rig.playsInto) ? 1 : 2;
        return board.mixer(sides, returns, { dryDb: rig.mixer.dryDb, outputs, label: `Mixer${suffix}` });
      },
    };
  },
};
