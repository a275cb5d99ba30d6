import { basename } from "node:path";
import type { Clip } from "../../sound/audio/clip.js";
import { encodeWav } from "../../sound/audio/encodeWav.js";
import { jsonOf } from "../../text/json.js";
import { UserError } from "../../text/userError.js";
import { type Alignment, align } from "../../work/capture/align.js";
import {
  type AlignedFiles,
  type CapturedResponse,
  capturedAs,
  type WrittenTone,
} from "../../work/capture/captured.js";
import { makeTone } from "../../work/capture/makeTone.js";
import { type CaptureWords, responseOf } from "../../work/capture/responseOf.js";
import type { ToneSettings } from "../../work/capture/toneSettings.js";
import { type RecordedClip, readClip } from "../audio/readClip.js";
import { refuseOther, writeOwn } from "../files/ownFiles.js";
import { readToneFile } from "./toneFile.js";

/**
 * Writes the tone and, beside it, its description.
 *
 * @example
 * ```ts
 * import { captureTone } from "splitsum";
 * const { descriptionFile } = captureTone("tone.wav", { lengthSeconds: 2 }, true);
 * console.log(descriptionFile);
 * ```
 */
export function captureTone(file: string, settings: Partial<ToneSettings>, force: boolean): WrittenTone {
  if (!/\.wav$/i.test(file))
    throw new UserError({ file, message: "is no name for a WAV file. End it in .wav." });
  const { clip, description } = makeTone(settings);
  const descriptionFile = file.replace(/\.wav$/i, ".json");
  const files = [
    { path: descriptionFile, content: jsonOf(description) },
    { path: file, content: encodeWav(clip, 24, file) },
  ];
  writeOwn(files, { force });
  return { ...description, file, descriptionFile };
}

export interface ResponseWords extends CaptureWords {
  readonly tone?: string;
  readonly out?: string;
  readonly force?: boolean;
}

/**
 * Measures a recording of the tone and writes the response as a float WAV.
 *
 * @example
 * ```ts
 * import { captureResponse } from "splitsum";
 * // tone.wav was played through the unit; recorded.wav is what came back.
 * const { rigLines } = await captureResponse("recorded.wav", {}, { tone: "recorded.json", out: "unit.wav", force: true });
 * console.log(rigLines);
 * ```
 */
export async function captureResponse(
  recordingFile: string,
  settings: Partial<ToneSettings>,
  words: ResponseWords,
): Promise<CapturedResponse> {
  const { tone: toneFile, out, force = false } = words;
  const file = out ?? recordingFile.replace(/(\.[^./\\]*)?$/, ".response.wav");
  refuseOther(file, force);
  const tone = toneFile === undefined ? settings : { ...readToneFile(toneFile), ...settings };
  const recording = await readClip(recordingFile, { allowTruncated: false });
  const captured = inFile(recordingFile, () => responseOf(recording, tone, words));
  writeOwn([{ path: file, content: encodeWav(captured.response, 32, file) }], { force });
  return capturedAs(captured, { recording: shown(recording), tone, file, name: basename(file) });
}

/**
 * @example
 * ```ts
 * import { captureAlign } from "splitsum";
 * console.log(await captureAlign("take.wav", "looped.wav", {}));
 * ```
 */
export async function captureAlign(
  dryFile: string,
  loopedFile: string,
  options: { readonly channel?: "left" | "right" },
): Promise<AlignedFiles> {
  const dry = await readClip(dryFile, { allowTruncated: false });
  const looped = await readClip(loopedFile, { allowTruncated: false });
  const found: Alignment = align(dry, looped, options);
  return { schemaVersion: 1, ...found, dry: shown(dry), looped: shown(looped) };
}

const shown = ({ file, sha256, notices }: RecordedClip & Clip) => ({ file, sha256, notices });

/** Gives faults of a measurement the name of the file that it was made of. */
function inFile<T>(file: string, measure: () => T): T {
  try {
    return measure();
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    throw new UserError(
      error.faults.map((fault) => ({ file, ...fault })),
      error.exitStatus,
    );
  }
}
