import type { Alignment } from "./align.js";
import type { ToneDescription } from "./makeTone.js";
import type { CaptureResponse } from "./responseOf.js";
import { responseRigLines } from "./responseRigLines.js";
import type { ToneSettings } from "./toneSettings.js";

export interface WrittenTone extends ToneDescription {
  readonly file: string;
  readonly descriptionFile: string;
}

/** What `capture response` prints as JSON: the facts, with the response as the file that holds it. */
export interface CapturedResponse extends Omit<CaptureResponse, "response"> {
  readonly schemaVersion: 1;
  readonly recording: { readonly file: string; readonly sha256: string; readonly notices: readonly string[] };
  readonly tone: ToneSettings | Partial<ToneSettings>;
  readonly response: {
    readonly file: string;
    readonly rateHz: number;
    readonly channels: number;
    readonly frames: number;
  };
  readonly rigLines: readonly string[];
}

/** What was found, with the response as the file that will hold it. @param name  of that file, in a rig */
export function capturedAs(
  found: CaptureResponse,
  {
    file,
    name,
    ...of
  }: Pick<CapturedResponse, "recording" | "tone"> & {
    readonly file: string;
    readonly name: string;
  },
): CapturedResponse {
  const { response, ...facts } = found;
  const { rateHz, channels } = response;
  return {
    schemaVersion: 1,
    ...of,
    ...facts,
    response: { file, rateHz, channels: channels.length, frames: channels[0].length },
    rigLines: responseRigLines(found, name),
  };
}

/** What `capture align` prints as JSON. */
export interface AlignedFiles extends Alignment {
  readonly schemaVersion: 1;
  readonly dry: CapturedResponse["recording"];
  readonly looped: CapturedResponse["recording"];
}
