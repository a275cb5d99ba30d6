import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { fullyWetReturns } from "./returns.js";
import { walk } from "./walk.js";

/**
 * Where the mono units stand, left and right are each split: to a stereo mixer, and to a summing box that feeds the
 * units. They run fully wet and return to both buses. The order of the rig is kept; what follows is fed by the mixer.
 */
export function parallelAfter(rig: Rig): DrawnRouting {
  return walk(rig, (board, units, [left, right], suffix) => {
    const [leftOn, leftToSum] = board.split([left], 2, `Left splitter${suffix}`);
    const [rightOn, rightToSum] = board.split([right!], 2, `Right splitter${suffix}`);
    const sum = board.sum([leftToSum!, rightToSum!], `Summing box${suffix}`);
    const feeds = units.length === 1 ? sum : board.split(sum, units.length, `Unit splitter${suffix}`);
    const returns = fullyWetReturns(board, units, feeds, rig);
    return board.mixer([leftOn!, rightOn!], returns, {
      dryDb: rig.mixer.dryDb,
      outputs: 2,
      id: `Mixer${suffix}`,
    });
  });
}
