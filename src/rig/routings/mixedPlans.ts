import { chainOf } from "../model/chain.js";
import type { Rig } from "../model/rig.js";
import { isMonoDestination } from "./board.js";
import { places } from "./places/places.js";
import type { Plan } from "./plan.js";
import { planNamer, uniformPlan } from "./planId.js";
import { begin, byEffort, closed, extended, seatsOf } from "./planSteps.js";
import { choicesOf } from "./seatChoices.js";
import { isNamed, isSensible } from "./sense.js";

/** Plans beside the eight routings, the most usual first, and how many there are in all. */
export interface MixedPlans {
  readonly plans: readonly Plan[];
  readonly total: number;
}

/**
 * Plans that make sense and are none of the eight routings: every mono unit in any of its places, itself or one of its
 * alternatives, neighbours in one branch or each in its own. They come by effort, the least first; places decide between
 * equals. No list of all is ever made: unit by unit, of all beginnings that may go on alike only the best are kept, so
 * time grows with the number of units and not with that of plans.
 *
 * @param most  plans wanted
 */
export function mixedPlans(rig: Rig, most: number): MixedPlans {
  const { stages, units } = chainOf(rig);
  if (isMonoDestination(rig.playsInto) || units.length === 0) return { plans: [], total: 0 };
  // The eight come up among the best and are taken out again.
  const keep = most + places.length;
  let groups = begin;
  for (const stage of stages) {
    if (stage.kind === "stereo") continue;
    for (const unit of stage.pedals) groups = extended(groups, choicesOf(rig, unit), keep);
    groups = closed(groups, keep);
  }
  const best = byEffort(groups.flatMap((group) => group.best)).map(seatsOf);
  const count = groups.reduce((sum, group) => sum + group.count, 0);
  const mixed = best.filter((seats) => !isNamed(seats)).slice(0, most);
  const idOf = planNamer(rig);
  return {
    plans: mixed.map((seats) => ({ id: idOf(seats), seats })),
    total: count - namedAmong(rig),
  };
}

const namedAmong = (rig: Rig): number =>
  places.filter((place) => {
    const { seats } = uniformPlan(rig, place);
    return isNamed(seats) && isSensible(rig, seats);
  }).length;
