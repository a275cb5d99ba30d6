import type { SettingValue } from "../dsp/kernel.js";
import type { Measures } from "../measure/measures.js";
import type { BuildSheet } from "../wiring/buildSheet.js";

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
  readonly build: BuildSheet | null;
  /** Only of a recording of the real rig: it has no wiring, so `build` and what only a wiring gives are null. */
  readonly recorded?: RecordedFacts;
}

/** A recording of the real rig, and how it stood to the take before its delay was taken out. */
export interface RecordedFacts {
  readonly file: string;
  readonly sha256: string;
  /** Of the file; it is measured at the rate of the take. */
  readonly rateHz: number;
  readonly frames: number;
  readonly channels: number;
  readonly notices: readonly string[];
  /** Positive: it came late. Interface and recorder included. */
  readonly latencyMs: number;
  readonly invertsPolarity: boolean;
  /** Of what follows the dry take. */
  readonly gainDb: number;
  /** 0 chance, 1 no doubt that this is the take through a rig. */
  readonly confidence: number;
}
