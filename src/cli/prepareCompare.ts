import { join } from "node:path";
import type { CompareOptions } from "../node/compare/compareOptions.js";
import { readMoreTakes, readRigAndAnyTake, type TakeWords } from "../node/rig/rigAndTake.js";
import { withAsks } from "../rig/file/askWords.js";
import { refuseSilent } from "../sound/audio/take.js";
import { safeFileName } from "../text/fileName.js";
import { UserError } from "../text/userError.js";
import { type ReelSpan, usualReel } from "../work/compare/reel.js";
import type { RecordingWord } from "../work/recordings/recording.js";
import { morePlans, type PlanWords } from "./planWords.js";

/** The words of `compare`, checked. */
export interface CompareWords extends TakeWords, PlanWords {
  readonly out?: string;
  readonly force?: boolean;
  /** Asks for those of the rig: `spendAtMost=200`. */
  readonly ask?: readonly string[];
  readonly reference?: string;
  readonly also?: readonly RecordingWord[];
  /** True for the usual bars. */
  readonly reel?: ReelSpan | true;
  readonly tail: number;
  readonly bits: 16 | 24 | 32;
  readonly match: boolean;
}

/** Everything that a comparison needs, and the takes beside its first. */
export interface CompareJob extends CompareOptions {
  readonly moreTakes: readonly CompareOptions["take"][];
}

/**
 * Reads rig and take and fills in what the words leave open: everything that a comparison needs.
 * @throws UserError, of a silent take too
 */
export async function prepareCompare(
  rigFile: string,
  [takeFile, ...moreFiles]: readonly string[],
  words: CompareWords,
): Promise<CompareJob> {
  const { rig: asWritten, take, ...rest } = await readRigAndAnyTake(rigFile, takeFile ?? null, words);
  const rig = withAsks(asWritten, words.ask ?? []);
  if (moreFiles.length > 0 && words.also)
    throw new UserError("--also goes with one take: a recording is of one. Leave it out, or name one take.");
  const moreTakes = await readMoreTakes(rig, moreFiles, words);
  for (const each of [take, ...moreTakes]) refuseSilent(each);
  return {
    rig,
    take,
    moreTakes,
    ...rest,
    outDir: words.out ?? join("renders", safeFileName(rig.name)),
    force: words.force ?? false,
    routings: words.routings ?? null,
    plans: morePlans(words),
    reference: words.reference ?? null,
    also: words.also ?? [],
    ...(words.reel && { reel: words.reel === true ? usualReel : words.reel }),
    tailSeconds: words.tail,
    bits: words.bits,
    match: words.match,
  };
}
