import { basename } from "node:path";
import { framesOf } from "../../sound/audio/clip.js";
import type { Take } from "../../sound/audio/take.js";
import { monoOf } from "../../sound/audio/takeSource.js";
import { safeFileName } from "../../text/fileName.js";
import { UserError } from "../../text/userError.js";
import { alignRecording } from "../../work/recordings/alignRecording.js";
import type { Recording, RecordingWord } from "../../work/recordings/recording.js";
import { readClip } from "../audio/readClip.js";
import { resample } from "../audio/resample.js";

/**
 * Reads recordings of the real rig and brings them in time with the take, and to its rate.
 *
 * @param taken  ids that have a meaning already
 * @throws UserError naming the file and what to do about it
 */
export async function readRecordings(
  words: readonly RecordingWord[],
  take: Pick<Take, "samples" | "rateHz">,
  taken: readonly string[],
  onFile: (file: string) => void = () => {},
): Promise<readonly Recording[]> {
  const ids = recordingIds(words, taken);
  const recordings: Recording[] = [];
  for (const [n, { name, file }] of words.entries()) {
    onFile(file);
    recordings.push(await readRecording({ id: ids[n], name, file }, take));
  }
  return recordings;
}

async function readRecording(
  { id, name, file }: RecordingWord & { readonly id: string },
  { samples, rateHz }: Pick<Take, "samples" | "rateHz">,
): Promise<Recording> {
  const clip = await readClip(file, { allowTruncated: false });
  try {
    const { alignment, channels } = alignRecording(
      { rateHz, channels: [monoOf(samples)] },
      await resample(clip, rateHz),
    );
    const { latencyMs, invertsPolarity, gainDb, confidence } = alignment;
    return {
      id,
      label: name,
      channels,
      facts: {
        file: basename(file),
        sha256: clip.sha256,
        rateHz: clip.rateHz,
        frames: framesOf(clip),
        channels: clip.channels.length,
        notices: clip.notices,
        latencyMs,
        invertsPolarity,
        gainDb,
        confidence,
      },
    };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    const [fault] = error.faults;
    throw new UserError({ file, message: fault.message });
  }
}

/** Ids made of the names. @throws UserError for names that give the same id, or one that means something else */
export function recordingIds(words: readonly RecordingWord[], taken: readonly string[]): readonly string[] {
  const ids = words.map(({ name }) => safeFileName(name));
  ids.forEach((id, n) => {
    const { name } = words[n];
    if (taken.includes(id)) {
      throw new UserError(`--also ${name}: "${id}" is a routing already. Choose another name.`);
    }
    if (ids.indexOf(id) < n) {
      throw new UserError(
        `--also ${name}: another recording is called "${id}" already. Choose another name.`,
      );
    }
  });
  return ids;
}
