import { basename } from "node:path";
import { parseRig } from "../../rig/file/parseRig.js";
import type { RigText } from "../../rig/file/rigText.js";
import type { Rig } from "../../rig/model/rig.js";
import type { Take } from "../../sound/audio/take.js";
import { usualTakeChannel } from "../../sound/audio/takeIntake.js";
import type { TakeChannel } from "../../sound/audio/takeNotices.js";
import type { WavBits } from "../../sound/audio/wavHead.js";
import { UserError } from "../../text/userError.js";
import { type LongTake, readAnyTake, readTake, type TakeOptions } from "../audio/readTake.js";
import { readRigText } from "./readRig.js";
import { takePath } from "./takePath.js";

/** Words of every command that plays a take through a rig. */
export interface TakeWords {
  /** What of a stereo take goes in; left out: both sides into an instrument with two outputs, else their mean. */
  readonly takeChannel?: TakeChannel;
  readonly allowTruncated?: boolean;
  /** False: what cables and inputs do to the sound is left out. */
  readonly loading?: boolean;
  /** Of the sound files that are to be written. */
  readonly bits?: WavBits;
}

/** A rig, and a take for it. */
export interface RigAndTake<T = Take> {
  readonly rig: Rig;
  /** Null when it came from standard input. */
  readonly rigFile: string | null;
  readonly rigText: RigText;
  readonly take: T;
}

/**
 * Reads a rig and the take that is named after it, or its own.
 * @throws UserError when either cannot be read, or no take is named
 */
export const readRigAndTake = (
  rigFile: string,
  takeFile: string | null,
  words: TakeWords,
): Promise<RigAndTake> => readBoth(rigFile, takeFile, words, readTake);

/** The same, but a long take stays on disk. */
export const readRigAndAnyTake = (
  rigFile: string,
  takeFile: string | null,
  words: TakeWords,
): Promise<RigAndTake<Take | LongTake>> => readBoth(rigFile, takeFile, words, readAnyTake);

async function readBoth<T>(
  rigFile: string,
  takeFile: string | null,
  words: TakeWords,
  read: (file: string, options: TakeOptions) => Promise<T>,
): Promise<RigAndTake<T>> {
  const text = await readRigText(rigFile);
  const written = parseRig(text, rigFile === "-" ? "standard input" : rigFile);
  const rig = words.loading === false ? { ...written, leavesLoadingOut: true } : written;
  const file = takeFile ?? takePath(rig, rigFile);
  if (file === null) {
    const message =
      'names no take, and none stands after it. Write "take: FILE" in the rig or the file after it.';
    throw new UserError({ file: rigFile, message });
  }
  const take = await read(file, takeOptions(rig, words));
  const rigText = { file: rigFile === "-" ? "rig.yaml" : basename(rigFile), text };
  return { rig, rigFile: rigFile === "-" ? null : rigFile, rigText, take };
}

/** More takes for the same rig, read as the first. @throws UserError when one cannot be used */
export async function readMoreTakes(
  rig: Rig,
  files: readonly string[],
  words: TakeWords,
): Promise<readonly (Take | LongTake)[]> {
  const takes: (Take | LongTake)[] = [];
  for (const file of files) takes.push(await readAnyTake(file, takeOptions(rig, words)));
  return takes;
}

const takeOptions = (rig: Rig, words: TakeWords): TakeOptions => ({
  channel: words.takeChannel ?? usualTakeChannel(rig.instrument.outputs),
  allowTruncated: words.allowTruncated ?? false,
  ...(words.bits && { rendersBits: words.bits }),
});
