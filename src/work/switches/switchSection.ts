import { type SwitchSummary, summaryOf } from "./summary.js";
import type { RoutingSwitches } from "./switchTypes.js";
import { type FlagKind, type Threshold, thresholds } from "./thresholds.js";

/** What every footswitch does, as a table or a page shows it: a row a switch, and where the thresholds come from. */
export interface SwitchSection {
  readonly routings: readonly {
    readonly id: string;
    readonly label: string;
    /** States looked at, of so many. */
    readonly states: number;
    readonly allStates: number;
    readonly presses: number;
    readonly switches: readonly SwitchSummary[];
  }[];
  /** Of the kinds that were noticed anywhere. */
  readonly thresholds: readonly (Threshold & { readonly kind: FlagKind })[];
}

export function sectionOf(routings: readonly RoutingSwitches[]): SwitchSection {
  const flags = routings.flatMap(({ steps }) => steps.flatMap((step) => step.flags));
  const kinds = [...new Set(flags.map(({ kind }) => kind))];
  return {
    routings: routings.map((routing) => ({
      id: routing.id,
      label: routing.label,
      states: routing.states.length,
      allStates: 2 ** routing.switches.length,
      presses: routing.steps.length,
      switches: summaryOf(routing),
    })),
    thresholds: kinds.map((kind) => ({ kind, ...thresholds[kind] })),
  };
}
