/** What is counted ahead of a recording. */
export type CountIn =
  | { readonly kind: "none" }
  | { readonly kind: "seconds"; readonly seconds: number }
  /** With clicks. */
  | { readonly kind: "beats"; readonly beats: number; readonly perMinute: number };

/** Bounds of what is counted. */
export const countInBounds = {
  seconds: { default: 3, min: 1, max: 30, whole: true },
  beats: { default: 4, min: 1, max: 16, whole: true },
  perMinute: { default: 100, min: 30, max: 300 },
} as const;

/** What was recorded. */
export interface RecordedFacts {
  readonly name: string;
  readonly seconds: number;
  readonly rateHz: number;
  readonly channels: 1 | 2;
  /** dBFS; null for digital silence. */
  readonly peakDbfs: number | null;
  readonly isClipped: boolean;
  /** What a person should know of it: sound that the browser lost, an end by itself. */
  readonly notices: readonly string[];
}

export type RecorderState =
  | { readonly kind: "idle" }
  /** Beats or seconds that are left, the one that is counted now among them. */
  | { readonly kind: "counting"; readonly left: number }
  | { readonly kind: "recording" }
  | { readonly kind: "ready"; readonly facts: RecordedFacts };

/** Records from the sound input. What was recorded stays until it is discarded. */
export interface Recorder {
  readonly state: RecorderState;
  /** Seconds that are recorded so far. */
  readonly seconds: number;
  readonly isListening: boolean;
  /**
   * Counts in, then records.
   * @param channels  of the input, from 0: one, or two for left and right
   * @throws Error when the input is closed, or something recorded is still there
   */
  start(channels: readonly number[], countIn: CountIn): void;
  /** Ends the recording, or the counting. */
  stop(): void;
  /** Plays what was recorded, at the player's volume. */
  listen(): void;
  stopListening(): void;
  /** What was recorded as a WAV file of 32-bit floats, as the browser gave it. @throws Error when there is nothing */
  file(): File;
  discard(): void;
}
