import type { Rig } from "../../rig/model/rig.js";
import type { SweepPlan } from "./plan.js";
import type { Shard } from "./sweepLayout.js";
import type { WishWords } from "./wishes.js";

/**
 * Results as they come, as JSON Lines: a head, then for each unit of work its results and a line that closes it, and
 * for each setting that was rendered by itself a line. Each line begins with a checksum of the rest of it. Whatever
 * stands behind the last closed unit is begun anew.
 */
export const resultsSchemaVersion = 2;

/** The first line: everything that joining and ranking must know. */
export interface ResultsHead {
  readonly splitsumSweep: typeof resultsSchemaVersion;
  readonly program: string;
  readonly inputs: InputHashes;
  readonly rig: Rig;
  readonly rigFile: string | null;
  readonly take: {
    readonly file: string;
    readonly sha256: string;
    readonly rateHz: number;
    readonly frames: number;
    readonly channels: number;
  };
  readonly plan: SweepPlan;
  /** Labels of the routings. */
  readonly labels: Readonly<Record<string, string>>;
  readonly wishes: WishWords;
  /** How many of the best are rendered by themselves. */
  readonly best: number;
  /** Null: the whole sweep. */
  readonly shard: Shard | null;
  readonly figureNames: readonly string[];
}

/** Fingerprints of everything that results depend on; two sweeps with the same ones have the same results. */
export interface InputHashes {
  readonly rig: string;
  /** Of the mono source, not of the file: how it was read counts as well. */
  readonly take: string;
  /** Sound files that settings name. */
  readonly clips: string;
  readonly plan: string;
  readonly program: string;
  /** Version of the JavaScript engine, in plain. */
  readonly engine: string;
}
