import type { Pedal, Rig } from "../model/rig.js";
import type { Jack } from "../wiring/wiring.js";
import { type Board, isStereo, type MixerReturn, type Signal, type StereoSignal } from "./board.js";
import type { Branch } from "./places/placeRule.js";
import { returnGainDb } from "./returnGain.js";

/** A signal that goes on, and a copy for each branch. */
export interface Split<S extends Signal = Signal> {
  readonly main: S;
  readonly feeds: readonly Jack[];
}

/** One splitter for a mono signal; for two sides, their sum as in `sumBeside`. */
export function splitBeside(board: Board, signal: Signal, branches: number): Split {
  if (isStereo(signal)) return sumBeside(board, signal, branches, "");
  const [main, ...feeds] = board.split(signal, 1 + branches);
  return { main: [main], feeds };
}

/** Each side split: on, and into a summing box, whose output feeds the branches. */
export function sumBeside(
  board: Board,
  [left, right]: StereoSignal,
  branches: number,
  suffix: string,
): Split<StereoSignal> {
  const [leftOn, leftToSum] = board.split([left], 2, `Left splitter${suffix}`);
  const [rightOn, rightToSum] = board.split([right], 2, `Right splitter${suffix}`);
  const sum = board.sum([leftToSum, rightToSum], `Summing box${suffix}`);
  const feeds = branches === 1 ? sum : board.split(sum, branches, `Unit splitter${suffix}`);
  return { main: [leftOn, rightOn], feeds };
}

/**
 * Branches side by side, each fed by its own jack and returned to the mixer. The last unit of a branch runs fully wet,
 * so that no dry sound comes round it; those ahead of it run as they are set, for it hears them so in line as well.
 * `passed` are the pedals that the other way to the mixer goes through.
 */
export function branchReturns(
  board: Board,
  branches: readonly Branch[],
  feeds: readonly Jack[],
  rig: Rig,
  passed: readonly Pedal[] = [],
): MixerReturn[] {
  return branches.map((branch, n) => {
    const last = branch[branch.length - 1];
    const ahead = branch.slice(0, -1).reduce((from, pedal) => board.unit(pedal, from), feeds[n]);
    const [from] = board.pedal(last, [ahead], { fullyWet: true, isUnit: true });
    if (branch.length > 1) board.cautions.push(sharedCaution(branch));
    return { from, gainDb: returnGainDb(last, rig, passed), pan: rig.mixer.returnPan };
  });
}

function sharedCaution(branch: Branch): string {
  const names = branch.map(({ name }) => name);
  const last = names.at(-1);
  return `${names.join(" and ")} share one branch: ${last} alone runs fully wet, and what stands ahead of it is heard through ${last} only.`;
}
