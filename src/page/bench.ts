import type { SettingValue } from "../dsp/kernel.js";
import type { Report } from "../report/report.js";
import type { Pedal, Rig } from "../rig/rig.js";

/**
 * The live half of the page: rig, take, engine and player. What is drawn reads this and calls it; it knows nothing of
 * what is drawn. Listeners hear of every change by its kind.
 */
export interface Bench {
  /** The rig as it is set now. */
  readonly rig: Rig;
  /** The rig as the page was made with it. */
  readonly originalRig: Rig;
  readonly takeName: string;
  /** Figures of the last complete render; null before the first. */
  readonly report: Report | null;
  /** Density of left against right, turned 45 degrees, by routing id: `size` x `size`, rows from the top (mid +). */
  readonly fields: ReadonlyMap<string, StereoField>;
  /** Null when nothing is being rendered. */
  readonly progress: { readonly done: number; readonly what: string } | null;
  readonly player: Player;

  /** Returns a function that stops the listening. */
  listen(listener: (change: BenchChange) => void): () => void;
  setSetting(pedal: string, key: string, value: SettingValue): void;
  setUnit(
    pedal: string,
    change: Partial<Pick<Pedal, "latencyMs" | "levelDb" | "invertsPolarity" | "canGoFullyWet" | "dryLeakDb">>,
  ): void;
  /** Heard at once; figures follow. */
  setMixer(change: Partial<Rig["mixer"]>): void;
  /** Back to the rig file's settings. */
  reset(): void;
  /** A recording of the person's own; it never leaves the machine. Rejects with a sentence when it cannot be used. */
  loadTake(file: File): Promise<void>;
  /** The rig as it is set now, as YAML that the command line accepts. */
  rigYaml(): string;
  /** The chosen routing as a 24-bit WAV, at the level that is heard. */
  routingWav(id: string): Blob;
}

export type BenchChange = "rig" | "take" | "report" | "progress" | "player" | "fault";

export interface StereoField {
  readonly size: number;
  /** Share of the energy in each cell, 0..1 of the densest. */
  readonly cells: Float32Array;
}

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
