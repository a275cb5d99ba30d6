import { framesOf } from "../../sound/audio/clip.js";
import { measuresOf } from "../../sound/measure/fill.js";
import type { SoundMeasures } from "../../sound/measure/measures.js";
import { measureClip } from "../../sound/measure/stereoMeter.js";
import {
  type MeasuredFile,
  type MeasuredReport,
  measuredSchemaVersion,
} from "../../work/recordings/measured.js";
import { readClip } from "../audio/readClip.js";

/**
 * Measures recordings one after the other; memory holds one at a time.
 * @param options.reference  a file that the others are compared with; measured first when it is not among them
 * @throws UserError for the first file that cannot be read
 * @example
 * ```ts
 * import { measureFiles } from "splitsum";
 * const { recordings } = await measureFiles(["stereo.wav", "take.wav"], { reference: "stereo.wav", allowTruncated: false });
 * for (const { file, measures } of recordings) console.log(file, measures.correlation, measures.widthKept);
 * ```
 */
export async function measureFiles(
  files: readonly string[],
  options: {
    readonly reference: string | null;
    readonly allowTruncated: boolean;
    readonly onProgress?: (done: number, what: string) => void;
  },
): Promise<MeasuredReport> {
  const { reference, allowTruncated, onProgress } = options;
  const all = reference === null ? files : [reference, ...files];
  const recordings: MeasuredSound[] = [];
  const names = [...new Set(all)];
  for (const [n, file] of names.entries()) {
    onProgress?.(n / names.length, file);
    recordings.push(await measured(file, allowTruncated));
  }
  const compared = recordings.find(({ recording }) => recording.file === reference)?.sound ?? null;
  return {
    schemaVersion: measuredSchemaVersion,
    reference,
    recordings: recordings.map(({ recording, sound }) => ({
      ...recording,
      measures: measuresOf(sound, null, { reference: compared, dry: null }),
    })),
  };
}

/** A recording, not compared yet. */
interface MeasuredSound {
  readonly recording: Omit<MeasuredFile, "measures">;
  readonly sound: SoundMeasures;
}

async function measured(file: string, allowTruncated: boolean): Promise<MeasuredSound> {
  const clip = await readClip(file, { allowTruncated });
  const { sha256, rateHz, channels, notices } = clip;
  const facts = { file, sha256, rateHz, frames: framesOf(clip), channels: channels.length, notices };
  return { recording: facts, sound: measureClip(clip) };
}
