import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings, type RoutingChoice, usualMore } from "../../rig/routings/chooseRoutings.js";
import { mixedPlans } from "../../rig/routings/mixedPlans.js";
import { routingNamed, routingsOf } from "../../rig/routings/routingsOf.js";
import type { Report } from "../../work/compare/report.js";
import { type Kept, keptRouting } from "./keptChoices.js";
import { renderedReference, renderedRoutings } from "./renderedRoutings.js";

/** What a page came with: a rig and the comparison of it. */
export interface CameWith {
  readonly rig: Rig;
  readonly report: Report;
}

/**
 * What is compared of a rig that may have become another. What the command left out stays out, what it asked for stays
 * in where the rig still has it, and what is new comes in.
 *
 * @param cameWith  null for a page without a comparison: then all that is usual
 * @param kept      states of the rig that stand beside it
 * @throws UserError where nothing of it is possible
 */
export function liveChoice(rig: Rig, cameWith: CameWith | null, kept: readonly Kept[] = []): RoutingChoice {
  const { routings, reference } = ownChoice(rig, cameWith);
  return { routings: [...routings, ...kept.map(keptRouting)], reference };
}

function ownChoice(rig: Rig, cameWith: CameWith | null): RoutingChoice {
  if (!cameWith) return chooseRoutings(rig, null, null, usualMore);
  const usual = routingsOf(rig).map(({ id }) => id);
  const known = routingsOf(cameWith.rig).map(({ id }) => id);
  const asked = renderedRoutings(cameWith.report).map(({ id }) => id);
  const plans = asked.filter((id) => !usual.includes(id) && typeof routingNamed(rig, id) !== "string");
  const ids = [
    ...usual.filter((id) => asked.includes(id) || !known.includes(id)),
    ...new Set([...plans, ...newMixed(rig, cameWith.rig, known, asked)]),
  ];
  const { routings, reference } = chooseRoutings(rig, ids, null);
  const wanted = renderedReference(cameWith.report);
  const same = routings.find(({ id, wiring }) => id === wanted && wiring);
  return { routings, reference: same ?? reference };
}

/** Plans that mix places and come with other mono units; none where the command was told to leave such, or anything, out. */
function newMixed(rig: Rig, before: Rig, known: readonly string[], asked: readonly string[]) {
  const had = mixedIds(before);
  const isUsual = known.every((id) => asked.includes(id)) && had.every((id) => asked.includes(id));
  return isUsual ? mixedIds(rig).filter((id) => !had.includes(id)) : [];
}

const mixedIds = (rig: Rig): readonly string[] => mixedPlans(rig, usualMore.mixed).plans.map(({ id }) => id);

/** What of a rig the page's parts are made for: where it differs, they are made anew. */
export interface Shape {
  /** All but the routings, as JSON. */
  readonly rig: string;
  /** Each routing, as JSON. */
  readonly ways: readonly string[];
}

export function shapeOf(rig: Rig, { routings, reference }: RoutingChoice): Shape {
  const pedals = rig.pedals.map(({ name, model, jacks }) => [name, model, jacks]);
  return {
    rig: JSON.stringify([rig.name, pedals, reference?.id, rig.instrument]),
    ways: routings.map(({ id, label, wiring }) => JSON.stringify([id, label, wiring !== null])),
  };
}

export const sameShape = (one: Shape | null, other: Shape | null): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

/** True where routings came to those of before, and nothing else is another: what is shown of those stays true meanwhile. */
export const hasMoreWays = (before: Shape | null, after: Shape): boolean =>
  before?.rig === after.rig && before.ways.every((way) => after.ways.includes(way));
