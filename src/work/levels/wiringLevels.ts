/** Level of one signal. */
export interface Level {
  /** The largest sample, dBFS; null in silence. */
  readonly peakDbfs: number | null;
  /** RMS over the take; a full-scale sine reads 0. */
  readonly rmsDbfs: number | null;
  /** As a sine of that peak would read on the cable; null in silence and without the rig's reference. */
  readonly peakDbu: number | null;
  readonly rmsDbu: number | null;
}

export interface CableLevel extends Level {
  readonly from: string;
  readonly fromJack: string;
  readonly to: string;
  readonly toJack: string;
  /** Down to the nearer of what the two boxes state; null where neither does. */
  readonly headroomDb: number | null;
}

/** A box against the largest levels that it states. */
export interface BoxLevel {
  readonly box: string;
  readonly kind: string;
  /** The loudest of its inputs and of its outputs in use; null where it has none. */
  readonly input: Level | null;
  readonly output: Level | null;
  readonly maxInputDbu: number | null;
  readonly maxOutputDbu: number | null;
  /** Down to the nearer of its limits; negative: it clips. Null without stated limits, reference or sound. */
  readonly headroomDb: number | null;
}

/** A mixer or a summing box: where branches meet. */
export interface SumLevel {
  readonly box: string;
  /** Each branch as it enters the sum, gain and pan behind it: its peak on the bus that gets more of it. */
  readonly branches: readonly { readonly jack: string; readonly peakDbfs: number | null }[];
  /** The loudest output. */
  readonly peakDbfs: number | null;
  /** The stated maximum of its output; full scale where none is stated, or without the rig's reference. */
  readonly limitDbfs: number;
  readonly limitBy: "stated" | "full-scale";
  /** Negative: it clips. */
  readonly headroomDb: number | null;
  /** Where in the take it first goes over, s; null while it stays below. */
  readonly firstOverSeconds: number | null;
}

/** The first limit to be broken, in time; of several at one moment the first in the signal's way. */
export interface FirstClip {
  readonly box: string;
  readonly jack: string;
  readonly at: "input" | "output";
  readonly seconds: number;
  /** By how much it is broken at the worst. */
  readonly overDb: number;
}

/** Levels along one wiring. */
export interface WiringLevels {
  readonly id: string;
  readonly cables: readonly CableLevel[];
  readonly boxes: readonly BoxLevel[];
  readonly sums: readonly SumLevel[];
  /** Null where nothing breaks a limit; only of those that are known. */
  readonly firstClip: FirstClip | null;
  /** Boxes of which no limit is known in dBFS: nothing is stated, or there is no reference. Whether they clip is not known. */
  readonly limitUnknown: readonly string[];
}
