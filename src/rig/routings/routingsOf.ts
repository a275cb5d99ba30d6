import { chainOf } from "../model/chain.js";
import type { Place, Rig } from "../model/rig.js";
import type { Wiring } from "../wiring/wiring.js";
import { drawMono, drawPlan } from "./drawPlan.js";
import { handDrawnRoutings } from "./handDrawn.js";
import { placedPlan } from "./placedPlan.js";
import { placeRules, places } from "./places/places.js";
import type { Plan } from "./plan.js";
import { parsePlanId, uniformPlan } from "./planId.js";
import { planLabel, planSays } from "./planLabel.js";
import {
  asGivenId,
  asPlacedId,
  inLineId,
  type Routing,
  type RoutingId,
  routingIds,
  stereoUnitId,
} from "./routing.js";
import { doubtOf, whyNot } from "./sense.js";

/**
 * Every way to wire a rig, in the order of `routingIds`, then the hand-drawn ones. A rig without a mono unit after the
 * split has one wiring, `as-given`; the eight are then listed as not possible, with the reason.
 * @throws UserError when a hand-drawn wiring does not hold together
 * @example
 * ```ts
 * import { readRig, routingsOf } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * for (const { id, wiring, reason } of routingsOf(rig)) console.log(id, wiring?.cables.length ?? reason);
 * ```
 */
export function routingsOf(rig: Rig): readonly Routing[] {
  const { units, stages } = chainOf(rig);
  const drawn = handDrawnRoutings(rig);
  if (units.length > 0) {
    const placed = Object.keys(rig.places).length > 0 ? [asPlaced(rig)] : [];
    return [...routingIds.map((id) => named(rig, id)), ...placed, ...drawn];
  }
  const reason = stages.length > 0 ? noUnitReason : noSplitReason;
  return [asGiven(rig, reason), ...routingIds.map((id) => notPossible(id, reason)), ...drawn];
}

/**
 * One routing by its id: of those in `routingsOf`, `as-placed`, or any plan's.
 * @returns the routing, or what is wrong with the id, in one sentence
 */
export function routingNamed(rig: Rig, id: string): Routing | string {
  if (id === asPlacedId) return asPlaced(rig);
  const known = routingsOf(rig).find((routing) => routing.id === id);
  if (known) return known;
  const plan = parsePlanId(rig, id);
  return typeof plan === "string" ? plan : planRouting(rig, plan);
}

/** A plan as a routing. */
export function planRouting(rig: Rig, plan: Plan): Routing {
  const reason = whyNot(rig, plan.seats);
  return {
    id: plan.id,
    label: planLabel(rig, plan),
    says: planSays(rig, plan),
    plan,
    reason,
    doubt: reason === null ? doubtOf(rig, plan.seats) : null,
    ...(reason === null ? drawPlan(rig, plan) : nothingDrawn),
  };
}

/** The wiring of one routing or plan alone, as in `routingsOf`; null when there is none such or it is not possible. */
export function wiringOf(rig: Rig, id: string): Wiring | null {
  const hand = rig.wirings[id];
  if (hand) return handDrawnRoutings({ ...rig, wirings: { [id]: hand } })[0]?.wiring ?? null;
  const { units } = chainOf(rig);
  if (id === asGivenId) return units.length > 0 ? null : drawPlan(rig, { seats: [] }).wiring;
  if (units.length === 0) return null;
  if (id === inLineId) return drawMono(rig).wiring;
  if (id === asPlacedId) return asPlaced(rig).wiring;
  const plan = parsePlanId(rig, id);
  return typeof plan === "string" || whyNot(rig, plan.seats) !== null ? null : drawPlan(rig, plan).wiring;
}

/** The routing that others are compared with: the stereo unit, or the one wiring there is. */
export function referenceOf(routings: readonly Routing[]): Routing | undefined {
  const possible = routings.filter(({ wiring }) => wiring !== null);
  return possible.find(({ id }) => id === stereoUnitId) ?? possible[0];
}

const noUnitReason =
  "No pedal after the split has only one input and one output: the rig can be wired as it stands.";
const noSplitReason = "No pedal of this rig has a stereo output: there is no split, and nothing to lose.";

const nothingDrawn = { wiring: null, cautions: [] } as const;

/** The place that all units have in a routing; undefined for `series-mono`, which gives nobody one. */
const placeOf = (id: RoutingId): Place | undefined =>
  places.find((place) => placeRules[place].uniform?.id === id);

const seriesMono = {
  label: "All in mono",
  says: "The whole rig in mono, in its own order: the simplest board, and no width.",
} as const;

function named(rig: Rig, id: RoutingId): Routing {
  const place = placeOf(id);
  if (place) return planRouting(rig, uniformPlan(rig, place));
  return { id, ...seriesMono, plan: null, reason: null, doubt: null, ...drawMono(rig) };
}

/** Units where the rig's `places` has them. */
function asPlaced(rig: Rig): Routing {
  const placed = Object.entries(rig.places).map(([name, place]) => ({ name, place }));
  const plan = placedPlan(rig, placed);
  if (typeof plan !== "string") return { ...planRouting(rig, plan), id: asPlacedId };
  const says = "Every mono unit where the rig file has it.";
  return { id: asPlacedId, label: "As placed", says, plan: null, reason: plan, doubt: null, ...nothingDrawn };
}

function asGiven(rig: Rig, says: string): Routing {
  const drawn = drawPlan(rig, { seats: [] });
  return { id: asGivenId, label: "As it stands", says, plan: null, reason: null, doubt: null, ...drawn };
}

function notPossible(id: RoutingId, reason: string): Routing {
  const place = placeOf(id);
  const uniform = place && placeRules[place].uniform;
  const { label, says } = uniform
    ? { label: uniform.label([]).trim(), says: uniform.says("fully wet") }
    : seriesMono;
  return { id, label, says, plan: null, reason, doubt: null, ...nothingDrawn };
}
