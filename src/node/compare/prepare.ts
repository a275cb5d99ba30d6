import { takenIds } from "../../rig/file/references.js";
import { chooseRoutings, type RoutingChoice } from "../../rig/routings/chooseRoutings.js";
import { routingsOf } from "../../rig/routings/routingsOf.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import { UserError } from "../../text/userError.js";
import type { Recording } from "../../work/recordings/recording.js";
import { samplesOf } from "../audio/readTake.js";
import { readRecordings, recordingIds } from "../recordings/readRecordings.js";
import { loadClips } from "../rig/rigClips.js";
import type { Comparison } from "./compareOptions.js";
import { checkSpan } from "./writeReel.js";

/** What a comparison is made of, checked and read. */
export interface Prepared {
  readonly options: Comparison;
  readonly choice: RoutingChoice;
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly recordings: readonly Recording[];
  /** What width and tone are compared with, where that is a recording. */
  readonly recordedReference: string | null;
}

/**
 * Checks what is asked for and reads the files that it names, before anything is written.
 * @throws UserError for what a person can mend
 */
export async function prepare(options: Comparison): Promise<Prepared> {
  const { rig, take, rigFile, also = [], reference, onProgress } = options;
  if (options.reel) checkSpan(options.reel, take.frames / take.rateHz);
  checkLength(options);
  const taken = [...takenIds, ...routingsOf(rig).map(({ id }) => id)];
  const isRecorded = recordingIds(also, taken).includes(reference ?? "");
  const choice = chooseRoutings(rig, options.routings, isRecorded ? null : reference, options.plans);
  const clips = await loadClips(rig, rigFile, take.rateHz);
  const recordings =
    also.length === 0
      ? []
      : await readRecordings(also, { rateHz: take.rateHz, samples: samplesOf(take) }, taken, (file) =>
          onProgress?.(0, `aligning ${file}`),
        );
  return { options, choice, clips, recordings, recordedReference: isRecorded ? reference : null };
}

/** Refuses renders that no WAV file can hold, before any work is done. */
function checkLength({ take: { frames, rateHz }, tailSeconds, bits }: Comparison): void {
  const bytes = (frames + secondsToFrames(tailSeconds, rateHz)) * 2 * (bits / 8);
  if (bytes >= 2 ** 32 - 4096) {
    throw new UserError(
      `a stereo file of this take would need ${(bytes / 2 ** 30).toFixed(1)} GiB; a WAV file holds 4. Cut the take, or use --bits 16.`,
    );
  }
}
