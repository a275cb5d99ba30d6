import { isAllOn, isOn } from "./states.js";
import type { Cure, Flag, RoutingSwitches, SwitchStep } from "./switchTypes.js";
import type { FlagKind } from "./thresholds.js";

/** What pressing one switch off does in a routing, over all states of the others: a row of the table, of the page. */
export interface SwitchSummary {
  readonly pedal: string;
  /** Presses looked at. */
  readonly presses: number;
  /** With every other switch on; null where that state was not looked at. */
  readonly othersOn: Pick<SwitchStep, "levelJumpLu" | "sideShareChange" | "correlationChange"> | null;
  /** The range over all presses; null where all are silent. */
  readonly levelJumpLu: { readonly least: number; readonly most: number } | null;
  /** One a kind: the worst that any press gave. */
  readonly noticed: readonly Noticed[];
  /** What its output would have to be turned up by for one level on and off; null where level calls for another cure. */
  readonly trimDb: number | null;
}

export interface Noticed {
  readonly kind: FlagKind;
  readonly says: string;
  /** In how many of the presses. */
  readonly presses: number;
  readonly cure: Cure | null;
}

/** A routing's presses, switch by switch. */
export function summaryOf({ switches, steps }: RoutingSwitches): readonly SwitchSummary[] {
  return switches.map((pedal, place) => {
    const own = steps.filter((step) => step.pedal === pedal && isOn(step.from, place));
    const othersOn = own.find(({ from }) => isAllOn(from));
    const jumps = own.flatMap(({ levelJumpLu }) => levelJumpLu ?? []);
    const noticed = noticedIn(own.map(({ flags }) => flags));
    const level = noticed.find(({ kind }) => kind === "level-jump");
    return {
      pedal,
      presses: own.length,
      othersOn: othersOn
        ? {
            levelJumpLu: othersOn.levelJumpLu,
            sideShareChange: othersOn.sideShareChange,
            correlationChange: othersOn.correlationChange,
          }
        : null,
      levelJumpLu: jumps.length > 0 ? { least: Math.min(...jumps), most: Math.max(...jumps) } : null,
      noticed,
      trimDb: level?.cure?.kind === "trim" ? (othersOn?.levelJumpLu ?? null) : null,
    };
  });
}

/** The worst flag of each kind; with every other switch on wins where it is as bad. */
function noticedIn(presses: readonly (readonly Flag[])[]): readonly Noticed[] {
  const kinds = [...new Set(presses.flat().map(({ kind }) => kind))];
  return kinds.map((kind) => {
    const flags = presses.flat().filter((flag) => flag.kind === kind);
    const worst = flags.reduce((most, flag) => (badness(flag) > badness(most) + 0.05 ? flag : most));
    const { says, cure } = worst;
    return {
      kind,
      says,
      cure,
      presses: presses.filter((press) => press.some((flag) => flag.kind === kind)).length,
    };
  });
}

/** One side turned over is worse than both. */
const badness = ({ kind, value }: Flag): number =>
  kind === "polarity" ? -(value ?? 0) : kind === "comb" ? (value ?? 0) : Math.abs(value ?? 0);
