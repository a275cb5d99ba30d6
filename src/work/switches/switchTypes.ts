import type { Comb } from "../../sound/measure/facts.js";
import type { StateLevels } from "./measureStates.js";
import type { SwitchState } from "./states.js";
import type { FlagKind } from "./thresholds.js";

/** One state of a routing's footswitches, and how it sounds over the take. */
export interface StateReading extends SwitchState, StateLevels {
  /** Where the dry sound meets a late copy of itself; null where it does not. */
  readonly comb: Comb | null;
  /** Delay of the left side behind the right, ms; null where a side has no dry sound. */
  readonly sideDelayMs: number | null;
  /** 1 or -1 a side; null where it has no dry sound. */
  readonly polarity: readonly [left: 1 | -1 | null, right: 1 | -1 | null];
}

/** Something that a listener notices at a press. */
export interface Flag {
  readonly kind: FlagKind;
  readonly says: string;
  /** What was found, in `unit`, and from where on it is noticed. */
  readonly value: number | null;
  readonly unit: string;
  readonly threshold: number;
  readonly source: string;
  /** Null where it is the pedal's own effect and nothing to be cured. */
  readonly cure: Cure | null;
}

export interface Cure {
  readonly kind: "mute" | "trim" | "both" | "relay" | "keep-latency" | "kill-dry" | "polarity" | "pass";
  readonly says: string;
  /** Level jump that is left with it, where it was rendered. */
  readonly levelJumpLu: number | null;
}

/** One press: `pedal` goes off, every other switch stays. Pressed on again, the changes have the opposite sign. */
export interface SwitchStep {
  readonly pedal: string;
  /** Ids of states. */
  readonly from: string;
  readonly to: string;
  /** Null where a state is silent. */
  readonly levelJumpLu: number | null;
  readonly sideShareChange: number | null;
  readonly correlationChange: number | null;
  readonly flags: readonly Flag[];
}

export interface RoutingSwitches {
  readonly id: string;
  readonly label: string;
  /** Labels of the boxes with a footswitch, in the order of the states' digits. */
  readonly switches: readonly string[];
  readonly states: readonly StateReading[];
  readonly steps: readonly SwitchStep[];
}
