import type { Pedal, Rig } from "../../rig/model/rig.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Reel } from "../../work/compare/reel.js";
import type { Report } from "../../work/compare/report.js";
import type { Capture } from "./capture.js";
import type { EngineCheck, Switches, WorkProgress } from "./onDemand.js";
import type { Player } from "./player.js";
import type { Recorder } from "./recorder.js";
import type { RigDesk } from "./rigDesk.js";
import type { SoundInput } from "./soundInput.js";
import type { StereoField } from "./stereoField.js";

/**
 * The live half of the page: rig, take, engine and player. What is drawn reads this and calls it; it knows nothing of
 * what is drawn. Listeners hear of every change by its kind.
 */
export interface Bench {
  /** The rig file that is worked on. */
  readonly desk: RigDesk;
  /** Whether the browser keeps the work on the rig over a reload. */
  readonly isWorkKept: boolean;
  /** The rig as it is set now: as it was last without a fault. @throws Error before there was any */
  readonly rig: Rig;
  readonly takeName: string;
  /**
   * Figures of the last complete render; null before the first, and while a rig of another shape (other pedals, jacks or
   * wirings) is worked out.
   */
  readonly report: Report | null;
  /** Density of left against right, turned 45 degrees, by routing id: `size` x `size`, rows from the top (mid +). */
  readonly fields: ReadonlyMap<string, StereoField>;
  /** Null when nothing is being rendered. */
  readonly progress: WorkProgress | null;
  readonly player: Player;
  /** Peaks of the dry take, 0..1 full scale, in equal slices over `player.lengthSeconds`; empty until decoded. */
  readonly overview: Float32Array;
  /** The last thing that went wrong, as a sentence for a person; null when all is well again. */
  readonly fault: string | null;
  /** Boxes and cables of a routing of the rig as it is now; null where it has none such, or it is not possible. */
  wiringOf(id: string): Wiring | null;
  readonly switches: Switches;
  readonly engineCheck: EngineCheck;
  /** The audio interface, as far as the browser lets the page listen. */
  readonly input: SoundInput;
  readonly recorder: Recorder;
  readonly capture: Capture;

  /** Returns a function that stops the listening. */
  listen(listener: (change: BenchChange) => void): () => void;
  setSetting(pedal: string, key: string, value: SettingValue): void;
  setUnit(
    pedal: string,
    change: Partial<Pick<Pedal, "latencyMs" | "levelDb" | "invertsPolarity" | "canGoFullyWet" | "dryLeakDb">>,
  ): void;
  /** Heard at once; figures follow. */
  setMixer(change: Partial<Rig["mixer"]>): void;
  /** Whether loading is heard, where the rig gives the instrument's circuit. */
  setLoading(heard: boolean): void;
  /** The rig as the page came with it, and these knobs of it turned, by their paths: a setting of a sweep. */
  setKnobs(settings: Readonly<Record<string, SettingValue>>): void;
  /** Back to the rig file's settings. */
  reset(): void;
  /** Takes that came with the page; more than one where several were compared. */
  readonly takeNames: readonly string[];
  /** One of those, by its place among them. */
  chooseTake(place: number): Promise<void>;
  /** A recording of the person's own; it never leaves the machine. Rejects with a sentence when it cannot be used. */
  loadTake(file: File): Promise<void>;
  /** Names of the sound files that settings may name: the page holds these. */
  readonly soundFiles: readonly string[];
  /** One more, from the person's disk, under its own name. Rejects with a sentence when it cannot be used. */
  loadSoundFile(file: File): Promise<void>;
  /** The chosen routing as a 24-bit WAV, at the level that is heard. */
  routingWav(id: string): Blob;
  /** All choices one after the other over the loop, or the usual bars where it is off; null before they were rendered. */
  reel(): Reel | null;
  /** Choices that were kept as they were set once, beside those of the rig as it is. */
  readonly kept: readonly KeptChoice[];
  /** Keeps a routing as it is set now, as one more choice. */
  keep(id: string, label: string): void;
  forget(id: string): void;
  /** This page with rig, take and figures as they are now, as one HTML file; and what had no room in it, as a sentence. */
  savedPage(): Promise<{ readonly html: string; readonly leftOut: string | null }>;
  /** Works out what every footswitch does in these routings, for the rig as it is set now and the take. */
  workOutSwitches(ids: readonly string[]): void;
  /** Gives that up. */
  stopSwitches(): void;
  /** Renders these routings by the browser's own audio engine too, for the rig as it is set now and the take. */
  checkEngine(ids: readonly string[]): void;
  /** Gives that up. */
  stopCheck(): void;
}

/** A choice that was kept. */
export interface KeptChoice {
  readonly id: string;
  readonly label: string;
  /** The routing that it is, of the rig as it was then. */
  readonly routing: string;
}

/** Kinds of change that listeners hear of. After "shape", whatever is made for the rig's parts is made anew. */
export const benchChanges = [
  "desk",
  "rig",
  "shape",
  "take",
  "report",
  "progress",
  "player",
  "fault",
  "switches",
  "check",
  "input",
  "recorder",
  "capture",
] as const;
export type BenchChange = (typeof benchChanges)[number];
