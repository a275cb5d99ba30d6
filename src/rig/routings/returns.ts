import { fixed } from "../../text/numbers.js";
import type { Pedal, ReturnTrim } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import { wetWords } from "../wiring/wetWords.js";
import type { Jack } from "../wiring/wiring.js";
import { type Board, isStereo, type MixerReturn, type Signal, type StereoSignal } from "./board.js";
import type { Branch, Stand } from "./places/placeRule.js";
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
  { board, rig, trims, branches }: Omit<Stand, "suffix">,
  feeds: readonly Jack[],
  passed: readonly Pedal[] = [],
): MixerReturn[] {
  return branches.map((branch, n) => {
    const last = branch[branch.length - 1];
    const ahead = branch.slice(0, -1).reduce((from, pedal) => board.unit(pedal, from), feeds[n]);
    const [from] = board.pedal(last, [ahead], { fullyWet: true, isUnit: true });
    if (branch.length > 1) board.cautions.push(sharedCaution(branch));
    const trim = trims[last.name];
    const gainDb = returnGainDb(last, rig, passed, trim?.trimDb);
    if (rig.mixer.returnDb === null) board.cautions.push(levelCaution(last, gainDb, trim));
    return { from, gainDb, pan: rig.mixer.returnPan };
  });
}

/** How loud a return is that the rig leaves open, and what that rests on. */
function levelCaution({ name: unit, model }: Pedal, gainDb: number, trim: ReturnTrim | undefined): string {
  const level = `The return of ${unit} is taken as ${fixed(gainDb, 1)} dB, since the rig does not say`;
  if (!modelOf(model).additive)
    return `${level}: about as loud as it is in line, for it has no wet sound alone to go by. Set it by ear.`;
  if (!trim)
    return `${level}: about as much wet sound as in line, an estimate until it is measured on a take.`;
  const wet = `${fixed(trim.wetToDryDb, 1)} dB`;
  switch (trim.by) {
    case "in-line":
      return `${level}: wet to dry is then ${wet} on this take, as ${unit} gives in line.`;
    case "no-dry":
      return `${level}: in line ${unit} leaves no dry sound to go by, so wet is set as loud as dry (${wet} on this take). Set it by ear.`;
    case "bound":
      return `${level}: a mixer goes no further. Wet to dry is ${wet} on this take, not what ${unit} gives in line.`;
  }
}

function sharedCaution(branch: Branch): string {
  const names = branch.map(({ name }) => name);
  const last = branch[branch.length - 1];
  return `${names.join(" and ")} share one branch: ${last.name} alone runs ${wetWords(last)}, and what stands ahead of it is heard through ${last.name} only.`;
}
