import type { Alignment } from "./align.js";
import type { ToneDescription } from "./makeTone.js";
import type { CaptureResponse } from "./responseOf.js";
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

/** What `capture align` prints as JSON. */
export interface AlignedFiles extends Alignment {
  readonly schemaVersion: 1;
  readonly dry: CapturedResponse["recording"];
  readonly looped: CapturedResponse["recording"];
}
