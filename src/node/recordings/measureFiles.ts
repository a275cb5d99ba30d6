import { framesOf } from "../../sound/audio/clip.js";
import { measureClip } from "../../sound/measure/stereoMeter.js";
import { withReference } from "../../sound/measure/withReference.js";
import { type Measured, measuredSchemaVersion, type Recording } from "../../work/recordings/measured.js";
import { readClip } from "../audio/readClip.js";

/**
 * Measures recordings one after the other; memory holds one at a time.
 * @param options.reference  a file that the others are compared with; measured first when it is not among them
 * @throws UserError for the first file that cannot be read
 */
export async function measureFiles(
  files: readonly string[],
  options: {
    readonly reference: string | null;
    readonly allowTruncated: boolean;
    readonly onProgress?: (done: number, what: string) => void;
  },
): Promise<Measured> {
  const { reference, allowTruncated, onProgress } = options;
  const all = reference === null ? files : [reference, ...files];
  const recordings: Recording[] = [];
  const names = [...new Set(all)];
  for (const [n, file] of names.entries()) {
    onProgress?.(n / names.length, file);
    recordings.push(await measured(file, allowTruncated));
  }
  const compared = recordings.find(({ file }) => file === reference)?.measures ?? null;
  return {
    schemaVersion: measuredSchemaVersion,
    reference,
    recordings: recordings.map((recording) => ({
      ...recording,
      measures: withReference(recording.measures, { reference: compared, dry: null }),
    })),
  };
}

async function measured(file: string, allowTruncated: boolean): Promise<Recording> {
  const clip = await readClip(file, { allowTruncated });
  const { sha256, rateHz, channels, notices } = clip;
  return {
    file,
    sha256,
    rateHz,
    frames: framesOf(clip),
    channels: channels.length,
    notices,
    measures: measureClip(clip),
  };
}
