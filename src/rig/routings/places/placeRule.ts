import type { Pedal, ReturnTrim, Rig } from "../../model/rig.js";
import type { Board, Signal, StereoSignal } from "../board.js";
import type { RoutingId } from "../routing.js";

/** Units of one branch, one after the other; all places but `beside` and `beside-after` have one in each. */
export type Branch = readonly Pedal[];

/** Units that stand next to each other in one place. */
export interface Stand {
  readonly board: Board;
  readonly rig: Rig;
  /** What was measured of returns, by unit. */
  readonly trims: Readonly<Record<string, ReturnTrim>>;
  readonly branches: readonly Branch[];
  /** Behind the labels of its boxes, where others like them stand in the wiring: "" or " 1", " 2". */
  readonly suffix: string;
}

/** All that is said and done of one place. One of `inRow` and `around` draws it. */
export interface PlaceRule {
  /**
   * The routing in which all units have this place, its label, and one sentence on it, told what its units give beside the
   * dry sound; null where none has the name.
   */
  readonly uniform: {
    readonly id: RoutingId;
    readonly label: (units: readonly Pedal[]) => string;
    readonly says: (wet: string) => string;
  } | null;
  /** The units in a label that tells other places too: "reverb beside". */
  readonly part: (words: UnitWords) => string;
  /** What becomes of the units, behind their names: "moves ahead of the split". */
  readonly does: (wet: string) => string;
  /** Boxes of its own stand where the units do, so that several such stands are numbered. */
  readonly hasBoxes: boolean;
  /** Units return, fully wet, to a mixer; neighbours may share a branch, whose last one has a wet sound alone. */
  readonly isBranch: boolean;
  /** Is there for the difference between the sides. */
  readonly keepsApart: boolean;
  /**
   * How far it is from what a builder tries first with a unit that adds to the sound (beside), and with one that shapes
   * all of it (ahead of the split); a second unit or a stereo one is bought when neither will do. Common practice, no
   * source.
   */
  readonly effort: { readonly adding: number; readonly shaping: number };
  /** Draws units where they stand in the row. */
  readonly inRow: ((stand: Stand, signal: StereoSignal) => Signal) | null;
  /** Draws units that leave the row: what stands ahead of it, and what behind. */
  readonly around: ((stand: Stand, signal: Signal) => Around) | null;
}

export interface Around {
  /** Into the row. */
  readonly signal: Signal;
  /** What comes out of the row, taken on to the destination. `suffix` as in `Stand`. */
  readonly behind: (signal: Signal, suffix: string) => Signal;
}

/** Units in words: "tremolo and overdrive", "two tremolos and two overdrives". */
export interface UnitWords {
  readonly one: string;
  readonly two: string;
}
