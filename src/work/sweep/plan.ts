import type { AxisGroup } from "../../rig/model/axis.js";
import type { RoutingId } from "../../rig/routings/routing.js";

/** What a sweep computes: everything that its results depend on beside rig, take and program. Plain data. */
export interface SweepPlan {
  readonly groups: readonly AxisGroup[];
  /** So many settings of the grid by chance; null: all. */
  readonly sample: number | null;
  readonly seed: number;
  /** Words of the routings, in their usual order, all of them possible. */
  readonly routings: readonly string[];
  /** The routing among them that width is compared with. */
  readonly reference: string | null;
  /** Second units with their knobs off by chance, for `dual-mono`. */
  readonly tolerance: Tolerance | null;
  /** Length of every render: the take, and the tail that the rig needs at the ends of its knobs. */
  readonly frames: number;
}

export interface Tolerance {
  readonly percent: number;
  readonly draws: number;
}

/** The routing that has two units. */
const pairRouting: RoutingId = "dual-mono";

/** Results of a routing at one setting: as the rig has it, and the draws. */
export const variantsOf = (plan: Pick<SweepPlan, "tolerance">, routing: string): number =>
  routing === pairRouting && plan.tolerance !== null ? 1 + plan.tolerance.draws : 1;
