import { join } from "node:path";
import { type RigAndTake, readRigAndTake, type TakeWords } from "../node/rig/rigAndTake.js";
import type { SweepOptions } from "../node/sweep/prepareSweep.js";
import { unevenAxes } from "../rig/file/sweepSchema.js";
import { knobsOf } from "../rig/knobs/knobs.js";
import { readAxis } from "../rig/knobs/vary.js";
import type { AxisGroup } from "../rig/model/axis.js";
import type { Rig } from "../rig/model/rig.js";
import { safeFileName } from "../text/fileName.js";
import { UserError } from "../text/userError.js";
import type { WishWords } from "../work/sweep/wishes.js";

/** Wishes as words of a command; left out: those of the rig. */
export interface WishOptions {
  readonly want?: readonly string[];
  readonly most?: readonly string[];
  readonly least?: readonly string[];
}

/** The words of `sweep`, checked. */
export interface SweepCommandWords extends TakeWords, WishOptions {
  readonly vary?: readonly string[];
  readonly routings?: readonly string[];
  readonly reference?: string;
  readonly sample?: number;
  readonly seed?: number;
  readonly tolerance?: number;
  readonly draws?: number;
  readonly tail: number;
  readonly shard?: { readonly part: number; readonly of: number };
  readonly resume?: boolean;
  readonly force?: boolean;
  readonly renderBest?: number;
  readonly threads?: number;
  readonly out?: string;
}

/** Settings that are shown, and rendered for their true peak, at the least. */
const fewestBest = 10;

/**
 * Reads rig and take; what the words leave open is as the rig's `sweep` block has it.
 * @throws UserError
 */
export async function sweepOptions(
  rigFile: string,
  takeFile: string | null,
  words: SweepCommandWords,
): Promise<SweepOptions> {
  const { rig, take, ...place } = await readRigAndTake(rigFile, takeFile, words);
  const { sweep } = rig;
  return {
    ...place,
    rig,
    take,
    outDir: words.out ?? join("renders", `${safeFileName(rig.name)}-sweep`),
    force: words.force ?? false,
    resume: words.resume ?? false,
    request: {
      groups: words.vary ? readVary(words.vary, rig) : (sweep?.vary ?? []),
      sample: words.sample ?? sweep?.sample ?? null,
      seed: words.seed ?? sweep?.seed ?? 1,
      routings: words.routings ?? sweep?.routings ?? null,
      reference: words.reference ?? null,
      tolerancePercent: words.tolerance ?? sweep?.tolerancePercent ?? null,
      draws: words.draws ?? sweep?.draws ?? 20,
      tailSeconds: words.tail,
    },
    wishes: {
      want: words.want ?? sweep?.want ?? [],
      most: words.most ?? sweep?.most ?? [],
      least: words.least ?? sweep?.least ?? [],
    },
    best: Math.max(fewestBest, words.renderBest ?? 0),
    shard: words.shard ?? null,
    ...(words.threads === undefined ? {} : { threads: words.threads }),
  };
}

/** Wishes of the words alone; null when there are none. */
export function wishesOf({ want, most, least }: WishOptions): WishWords | null {
  if (!want && !most && !least) return null;
  return { want: want ?? [], most: most ?? [], least: least ?? [] };
}

/** `KNOB=VALUES`, several with semicolons between them to step together. @throws UserError with every fault */
function readVary(texts: readonly string[], rig: Pick<RigAndTake, "rig">["rig"]): AxisGroup[] {
  const faults: string[] = [];
  const seen = new Set<string>();
  const groups = texts.map((text): AxisGroup => {
    const axes = text.split(";").flatMap((part) => {
      const axis = readPart(part.trim(), rig);
      if (typeof axis === "string") faults.push(axis);
      else if (seen.has(axis.path)) faults.push(`"${axis.path}" is varied twice.`);
      else seen.add(axis.path);
      return typeof axis === "string" ? [] : [axis];
    });
    const uneven = unevenAxes(axes);
    if (uneven !== null) faults.push(uneven);
    return axes;
  });
  if (faults.length > 0) throw new UserError(faults.map((message) => ({ message: `--vary: ${message}` })));
  return groups;
}

function readPart(text: string, rig: Rig) {
  const at = text.lastIndexOf("=");
  if (at < 1)
    return `"${text}" is no knob with its values; write KNOB=VALUES, as in "mixer.returnDb=-30..6/37".`;
  return readAxis(knobsOf(rig), text.slice(0, at).trim(), text.slice(at + 1).trim());
}
