import { type MorePlans, usualMore } from "../rig/routings/chooseRoutings.js";

/** Words that choose wirings. */
export interface PlanWords {
  readonly routings?: readonly string[];
  readonly plans?: number;
  readonly place?: string;
}

/** Plans beside the routings that are named: the usual ones only where nothing is. */
export const morePlans = ({ routings, plans, place }: PlanWords): MorePlans => ({
  mixed: plans ?? (routings || place ? 0 : usualMore.mixed),
  places: place ?? null,
});
