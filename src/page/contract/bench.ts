import type { Pedal, Rig } from "../../rig/model/rig.js";
import type { WiringLayout } from "../../rig/wiring/layout.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Report } from "../../work/compare/report.js";
import type { CrosscheckedRouting } from "../../work/crosscheck/crosscheck.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";
import type { RoutingSwitches } from "../../work/switches/switchTypes.js";

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
  /** Peaks of the dry take, 0..1 full scale, in equal slices over `player.lengthSeconds`; empty until decoded. */
  readonly overview: Float32Array;
  /** The last thing that went wrong, as a sentence for a person; null when all is well again. */
  readonly fault: string | null;
  readonly switches: Switches;
  readonly engineCheck: EngineCheck;

  /** Returns a function that stops the listening. */
  listen(listener: (change: BenchChange) => void): () => void;
  setSetting(pedal: string, key: string, value: SettingValue): void;
  setUnit(
    pedal: string,
    change: Partial<Pick<Pedal, "latencyMs" | "levelDb" | "invertsPolarity" | "canGoFullyWet" | "dryLeakDb">>,
  ): void;
  /** Heard at once; figures follow. */
  setMixer(change: Partial<Rig["mixer"]>): void;
  /** The rig that the page was made with, and these knobs of it turned, by their paths: a setting of a sweep. */
  setKnobs(settings: Readonly<Record<string, SettingValue>>): void;
  /** Back to the rig file's settings. */
  reset(): void;
  /** A recording of the person's own; it never leaves the machine. Rejects with a sentence when it cannot be used. */
  loadTake(file: File): Promise<void>;
  /** The rig as it is set now, as YAML that the command line accepts. */
  rigYaml(): string;
  /** The chosen routing as a 24-bit WAV, at the level that is heard. */
  routingWav(id: string): Blob;
  /** Works out what every footswitch does in these routings, for the rig as it is set now and the take. */
  measureSwitches(ids: readonly string[]): void;
  /** Gives that up. */
  stopSwitches(): void;
  /** Renders these routings by the browser's own audio engine too, for the rig as it is set now and the take. */
  checkEngine(ids: readonly string[]): void;
  /** Gives that up. */
  stopCheck(): void;
}

export type BenchChange = "rig" | "take" | "report" | "progress" | "player" | "fault" | "switches" | "check";

/** What footswitches do, as far as it was asked for. */
export type Switches = OnDemand<readonly RoutingSwitches[]>;

/** The engine against the browser's own, as far as it was asked for. */
export type EngineCheck = OnDemand<readonly CrosscheckedRouting[]>;

/** Something that is worked out when a person asks for it. */
export interface OnDemand<Found> {
  /** Null before the first time. */
  readonly found: Found | null;
  /** False where rig or take are others since. */
  readonly isCurrent: boolean;
  /** Null when nothing is being worked out. */
  readonly progress: { readonly done: number; readonly what: string } | null;
  /** Why it could not be worked out, as a sentence. */
  readonly fault: string | null;
}

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

/** What `compare` puts into the page for the eye, besides take, rig and engine. Plain JSON. */
export interface PageData {
  /** The report of the run that wrote the page: shown until the page's own first render is done. */
  readonly report: Report;
  /** Where the boxes and cables of each possible routing are drawn, by routing id. */
  readonly layouts: Readonly<Record<string, WiringLayout>>;
  /** The sweep that the page was made with. */
  readonly sweep?: PageSweep;
}

/** A blind trial as a person sets it up: fixed before it starts. `startTrial` in trial.ts runs it. */
export interface TrialPlan {
  /** tell-apart: which of A and B is X? prefer: which of A and B do you like better? */
  readonly kind: "tell-apart" | "prefer";
  /** Two or more of `Player.choices`; each trial takes two of them, all pairs equally often as far as it goes. */
  readonly routings: readonly string[];
  readonly trials: number;
}

/** A running trial. `sounds` must reach nothing but `Player.playBlind`. */
export interface Trial {
  readonly plan: TrialPlan;
  /** Trials answered so far. */
  readonly answered: number;
  /** The one to answer now; null when all are answered. */
  readonly sounds: { readonly A: string; readonly B: string; readonly X: string | null } | null;
  answer(choice: "A" | "B"): void;
  /** Null until the last answer is given. */
  readonly result: TrialResult | null;
}

export interface TrialResult {
  readonly schemaVersion: 1;
  readonly kind: TrialPlan["kind"];
  readonly rig: string;
  readonly take: string;
  readonly answers: readonly {
    readonly A: string;
    readonly B: string;
    readonly X: string | null;
    readonly answer: "A" | "B";
    /** Null where there is no right answer. */
    readonly correct: boolean | null;
  }[];
  /** Null for `prefer`. `probability`: of at least as many right answers by guessing, exact and one-sided. */
  readonly tellApart: {
    readonly correct: number;
    readonly trials: number;
    readonly probability: number;
  } | null;
  /** Null for `tell-apart`. One a pair; `low` and `high` bound the share of `first`, 95 %, exact. */
  readonly prefer:
    | readonly {
        readonly first: string;
        readonly second: string;
        readonly firstChosen: number;
        readonly trials: number;
        readonly low: number;
        readonly high: number;
      }[]
    | null;
}
