import type { Wiring } from "../wiring/wiring.js";

/** A way to wire the rig: possible with its wiring, or not, with the reason. */
export interface Routing {
  /** One of `routingIds`, `as-given` for a rig without a mono unit after the split, or a hand-drawn wiring's id. */
  readonly id: string;
  readonly label: string;
  /** One sentence: what it does to sound and board. */
  readonly says: string;
  readonly wiring: Wiring | null;
  /** Why it is not possible; null when it is. */
  readonly reason: string | null;
  /** What the builder should know of this wiring in particular: width lost at a summing input, order changed. */
  readonly cautions: readonly string[];
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
export type RoutingId = (typeof routingIds)[number];
