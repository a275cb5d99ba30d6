import { join } from "node:path";
import { readTake, type Take } from "../audio/take.js";
import type { CompareOptions } from "../compare/compare.js";
import { safeFileName } from "../files/fileName.js";
import { readRig } from "../rig/readRig.js";
import { takePath } from "../rig/takePath.js";
import { UserError } from "../userError.js";

/** The words of `compare`, checked. */
export interface CompareWords {
  readonly out?: string;
  readonly force?: boolean;
  readonly routings?: readonly string[];
  readonly reference?: string;
  readonly tail: number;
  readonly bits: 16 | 24 | 32;
  readonly match: boolean;
  readonly takeChannel: "mean" | "left" | "right";
  readonly allowTruncated?: boolean;
}

/**
 * Reads rig and take and fills in what the words leave open: everything that a comparison needs.
 * @throws UserError
 */
export async function prepareCompare(
  rigFile: string,
  takeFile: string | null,
  words: CompareWords,
): Promise<CompareOptions> {
  const rig = await readRig(rigFile);
  const file = takeFile ?? takePath(rig, rigFile);
  if (file === null) {
    const message =
      'names no take, and none stands after it. Write "take: FILE" in the rig or the file after it.';
    throw new UserError({ file: rigFile, message });
  }
  const take: Take = await readTake(file, {
    channel: words.takeChannel,
    allowTruncated: words.allowTruncated ?? false,
  });
  return {
    rig,
    rigFile: rigFile === "-" ? null : rigFile,
    take,
    outDir: words.out ?? join("renders", safeFileName(rig.name)),
    force: words.force ?? false,
    routings: words.routings ?? null,
    reference: words.reference ?? null,
    tailSeconds: words.tail,
    bits: words.bits,
    match: words.match,
  };
}
