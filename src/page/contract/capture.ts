import type { CapturedResponse } from "../../work/capture/captured.js";
import type { ToldOfUnit } from "../../work/capture/capturedUnit.js";
import type { ToneSettings } from "../../work/capture/toneSettings.js";

/** What is to be measured, and how. */
export interface CaptureOrder {
  /** Name of the pedal. */
  readonly unit: string;
  /** Channel of the input, from 0, on which the unit comes in. */
  readonly unitChannel: number;
  /** The one on which the tone comes in by a plain cable; null where there is none. */
  readonly cableChannel: number | null;
  /** The rate is that of the input. */
  readonly tone: Omit<Partial<ToneSettings>, "rateHz">;
  readonly told: ToldOfUnit;
}

export type CaptureState =
  | { readonly kind: "idle" }
  /** The tone sounds, or the silence before and after it. */
  | { readonly kind: "playing" }
  | { readonly kind: "working" }
  /** What is wrong with the recording, as sentences. */
  | { readonly kind: "refused"; readonly words: string }
  | { readonly kind: "found"; readonly unit: string; readonly captured: CapturedResponse };

/** Measures a real unit: plays the test tone and records what comes back, in one go. */
export interface Capture {
  readonly state: CaptureState;
  /** Share of tone and silence that is over, 0..1. */
  readonly done: number;
  /** Sounds at once: in a gesture, after the cautions. @throws UserError when the order does not hold together */
  start(order: CaptureOrder): void;
  /** Silence at once; what was recorded is dropped. */
  stop(): void;
  /** What was recorded last, as a WAV file; null before. */
  recording(): File | null;
  /** The response that was found, as a WAV file. @throws Error when there is none */
  response(): File;
}
