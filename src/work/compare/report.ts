import type { BuildSheet } from "../../rig/wiring/buildSheet.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Measures } from "../../sound/measure/measures.js";
import type { Answer } from "../answer/answer.js";
import type { RecordedFacts } from "../recordings/recording.js";
import type { Range } from "./range.js";

export const reportSchemaVersion = 1;

/** What `compare` knows at the end; `report.json` is this object. */
export interface Report {
  readonly schemaVersion: typeof reportSchemaVersion;
  readonly rig: {
    readonly name: string;
    readonly file: string | null;
    readonly playsInto: string;
    readonly pedals: readonly {
      readonly name: string;
      readonly model: string;
      readonly jacks: string;
      readonly settings: Readonly<Record<string, SettingValue>>;
    }[];
  };
  readonly take: {
    readonly file: string;
    readonly sha256: string;
    readonly rateHz: number;
    readonly frames: number;
    readonly channels: number;
    /** Plain sentences: clipped, DC offset, sides differ, truncated. */
    readonly notices: readonly string[];
    readonly measures: Measures;
    readonly matchGainDb: number | null;
    /** The dry take, matched like the routings. */
    readonly dryFile: string | null;
  };
  /** The routing that width and tone are compared with. */
  readonly reference: string | null;
  readonly matching: {
    readonly on: boolean;
    /** What every matched file measures. */
    readonly targetLufs: number | null;
    readonly truePeakLimitDbtp: number;
  };
  /** Length of every render, tail included. */
  readonly frames: number;
  readonly tailSeconds: number;
  readonly notes: readonly string[];
  readonly routings: readonly RoutingReport[];
  /** Which of them to build, and why. */
  readonly answer: Answer;
}

export interface RoutingReport {
  readonly id: string;
  readonly label: string;
  readonly says: string;
  readonly possible: boolean;
  readonly reason: string | null;
  readonly matchGainDb: number | null;
  readonly files: { readonly stereo: string; readonly mono: string } | null;
  /** Of the render as wired, before the match gain; true peak and loudness after it follow by adding `matchGainDb`. */
  readonly measures: Measures | null;
  /** Where two units swing by LFOs of their own: figures over how these may stand to each other. Of the sound as rendered first. */
  readonly overPhases?: Readonly<Record<"sideShare" | "foldDownLossDb" | "balanceDb", Range | null>>;
  readonly build: BuildSheet | null;
  /** Only of a recording of the real rig: it has no wiring, so `build` and what only a wiring gives are null. */
  readonly recorded?: RecordedFacts;
}
