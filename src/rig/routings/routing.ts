import type { Rig } from "../model/rig.js";
import type { Wiring } from "../wiring/wiring.js";
import type { Plan } from "./plan.js";

/** A way to wire the rig: possible with its wiring, or not, with the reason. */
export interface Routing {
  /** One of `routingIds`, a plan's id, `as-given` for a rig without a mono unit after the split, or a hand-drawn wiring's. */
  readonly id: string;
  readonly label: string;
  /** One sentence: what it does to sound and board. */
  readonly says: string;
  readonly wiring: Wiring | null;
  /** Why it is not possible; null when it is. */
  readonly reason: string | null;
  /** What the builder should know of this wiring in particular: width lost at a summing input, order changed. */
  readonly cautions: readonly string[];
  /** The place of every mono unit; null for `series-mono` and for wirings drawn by hand. */
  readonly plan: Plan | null;
  /** Why it makes no sense with this rig, though it can be built; null where nothing speaks against it. */
  readonly doubt: string | null;
  /** The rig that it is of, where that is another state of the rig, kept to be compared: no answer is chosen among such. */
  readonly keptFrom?: Rig;
}

export const routingIds = [
  "series-mono",
  "unit-first",
  "dual-mono",
  "parallel",
  "parallel-after",
  "one-side",
  "summed",
  "stereo-unit",
] as const;
/** The one wiring of a rig without a mono unit after the split. */
export const asGivenId = "as-given";
/** Every unit in its own place with its own mix, in mono: what the balance of others is held against. */
export const inLineId = "series-mono" satisfies (typeof routingIds)[number];
/** What the width of others is compared with. */
export const stereoUnitId = "stereo-unit" satisfies (typeof routingIds)[number];
/** The routing in which every mono unit goes where the rig's `places` has it. */
export const asPlacedId = "as-placed";
export type RoutingId = (typeof routingIds)[number];
