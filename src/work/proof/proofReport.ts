import type { ToneSettings } from "../capture/toneSettings.js";
import type { FaultKind } from "./faults.js";
import type { SideNoise } from "./hum.js";
import type { AskedRecording } from "./recordingList.js";

export const proofSchemaVersion = 1;

/** What `prove` knows; `--json` prints it, and the sheet is made of it. */
export interface ProofReport {
  readonly schemaVersion: typeof proofSchemaVersion;
  readonly rig: { readonly name: string; readonly playsInto: string };
  readonly plan: { readonly id: string; readonly label: string };
  /** How the levels of returns in the plan were come by, where the rig leaves them open. */
  readonly returnsBy: "rig" | "take" | "estimate";
  readonly tone: ToneSettings;
  /** Series resistance of what the tone was played from; null: not stated, taken for none. */
  readonly sourceOhms: number | null;
  readonly recordings: readonly ProvenRecording[];
  readonly built: "as-drawn" | "faulty" | "not-known";
  /** 0 to 1: that it is one of `faults`, or that there is none to be heard. */
  readonly sureness: number;
  /** The likeliest first; several where these recordings do not part them. */
  readonly faults: readonly FoundFault[];
  readonly checks: readonly Check[];
  /** What would give the same recordings as what was found. */
  readonly notTold: readonly FoundFault[];
  /** What the best likeness still misses in a cell, on average: 0 is a perfect fit, 0.1 about 2 dB. */
  readonly misfit: number;
}

export interface ProvenRecording {
  readonly file: string;
  readonly sha256: string;
  readonly notices: readonly string[];
  readonly off: AskedRecording["offLabels"];
  readonly feed: AskedRecording["feed"];
  readonly driftPpm: number;
  /** RMS over the sweeps, one a side. */
  readonly levelDbfs: readonly number[];
  readonly silence: readonly SideNoise[];
}

export interface FoundFault {
  readonly kind: FaultKind;
  readonly says: string;
  readonly where: string;
  /** Of faults of degree. */
  readonly wanted: number | null;
  readonly found: number | null;
}

export type CheckKind = FaultKind | "output" | "hum" | "hiss" | "cables";

/** A line of the sheet. */
export interface Check {
  readonly kind: CheckKind;
  /** What it is of; empty for the whole board. */
  readonly where: string;
  /** Of figures. */
  readonly wanted: number | null;
  readonly found: number | null;
  /** How far off `found` may be. */
  readonly within: number | null;
  /** Null where these recordings do not tell. */
  readonly passes: boolean | null;
}
