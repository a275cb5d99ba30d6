import type { CrosscheckedRouting } from "../../work/crosscheck/crosscheck.js";
import type { RoutingSwitches } from "../../work/switches/switchTypes.js";

/** How far some work is. */
export interface WorkProgress {
  /** 0..1 */
  readonly done: number;
  /** What is being done, as words behind the share. */
  readonly what: string;
}

/** Something that is worked out when a person asks for it. */
export interface OnDemand<Found> {
  /** Null before the first time. */
  readonly found: Found | null;
  /** False where rig or take are others since. */
  readonly isCurrent: boolean;
  /** Null when nothing is being worked out. */
  readonly progress: WorkProgress | null;
  /** Why it could not be worked out, as a sentence. */
  readonly fault: string | null;
}

/** What footswitches do, as far as it was asked for. */
export type Switches = OnDemand<readonly RoutingSwitches[]>;

/** The engine against the browser's own, as far as it was asked for. */
export type EngineCheck = OnDemand<readonly CrosscheckedRouting[]>;
