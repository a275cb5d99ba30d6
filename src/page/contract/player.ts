/** Plays all routings on one clock; one of them is heard. */
export interface Player {
  /** Routing ids in key order, then "dry". */
  readonly choices: readonly string[];
  readonly chosen: string;
  readonly playing: boolean;
  /** Seconds from the start of the take. */
  readonly position: number;
  readonly lengthSeconds: number;
  readonly loop: { readonly on: boolean; readonly from: number; readonly to: number };
  /** True: every choice at one loudness. False: as wired, one gain for all. */
  readonly matched: boolean;
  /** True: (left + right) / 2 on both sides. */
  readonly folded: boolean;
  /** dB, 0 full. Starts moderate. */
  readonly volumeDb: number;
  /** Gain that is applied to a choice now, dB, without the volume. */
  gainDb(id: string): number;
  play(): void;
  pause(): void;
  seek(seconds: number): void;
  choose(id: string): void;
  setLoop(change: Partial<{ on: boolean; from: number; to: number }>): void;
  setMatched(on: boolean): void;
  setFolded(on: boolean): void;
  setVolumeDb(db: number): void;
  /** For blind trials: fade out, fixed pause, fade in, always the same, also onto the same sound; always matched. */
  playBlind(id: string): void;
}

/** Shorter loops are a buzz. ITU-R BS.1534-3 asks for half a second. */
export const shortestLoopSeconds = 0.5;

/** The volume goes from here up to 0 dB. */
export const leastVolumeDb = -60;
