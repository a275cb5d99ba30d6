import type { Clip } from "../../../sound/audio/clip.js";
import { UserError } from "../../../text/userError.js";
import { type CaptureResponse, type CaptureWords, responseOf } from "../../../work/capture/responseOf.js";
import type { ToneSettings } from "../../../work/capture/toneSettings.js";

/** Read a recording of the tone, as `capture response` does. */
export interface CaptureJob {
  readonly kind: "capture";
  readonly recording: Clip;
  readonly tone: ToneSettings;
  readonly words: CaptureWords;
}

/** What it says of the unit, or why it cannot be used. */
export type CaptureResult = { readonly found: CaptureResponse } | { readonly refused: string };

export function readCapture({ recording, tone, words }: CaptureJob): CaptureResult {
  try {
    return { found: responseOf(recording, tone, words) };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return { refused: error.message };
  }
}
