import { nearest } from "../../text/nearest.js";
import { UserError } from "../../text/userError.js";
import { mostMixedPlans } from "../model/bounds.js";
import { placeChoices, type Rig } from "../model/rig.js";
import { mixedPlans } from "./mixedPlans.js";
import { parsePlaces } from "./placedPlan.js";
import type { Routing } from "./routing.js";
import { planRouting, referenceOf, routingNamed, routingsOf } from "./routingsOf.js";

export interface RoutingChoice {
  /** In their usual order, impossible ones included. */
  readonly routings: readonly Routing[];
  readonly reference: Routing | null;
}

/** Plans beside the routings that are named. */
export interface MorePlans {
  /** How many of those that mix places, the most usual first; more than there are: all. */
  readonly mixed: number;
  /** A plan by places, "Tank=beside, Grit=first"; null for none. */
  readonly places: string | null;
}
export const noMore: MorePlans = { mixed: 0, places: null };
/** What a comparison has beside the eight, unless told otherwise. */
export const usualMore: MorePlans = { mixed: 3, places: null };

/**
 * The routings that a person asked for.
 * @param ids       words, ids of plans among them, or null for the eight and those of the rig file
 * @param reference word of the one to compare with, or null for the usual: the stereo unit, or the first there is
 * @param more      plans beside those
 * @throws UserError for a word that is no routing of this rig, or a reference that is not possible
 */
export function chooseRoutings(
  rig: Rig,
  ids: readonly string[] | null,
  reference: string | null,
  { mixed, places }: MorePlans = noMore,
): RoutingChoice {
  const usual = routingsOf(rig);
  const asked = reference === null ? null : found(rig, usual, reference);
  const wanted = [
    ...(ids === null ? usual : ids.map((id) => found(rig, usual, id))),
    ...(asked ? [asked] : []),
    ...(places === null ? [] : [placedRouting(rig, places)]),
    ...mixedPlans(rig, Math.min(mixed, mostMixedPlans)).plans.map((plan) => planRouting(rig, plan)),
  ];
  const isWanted = ({ id }: Routing) => wanted.some((routing) => routing.id === id);
  const others = wanted.filter(({ id }, n) => {
    const isFirst = wanted.findIndex((routing) => routing.id === id) === n;
    return isFirst && !usual.some((routing) => routing.id === id);
  });
  const routings = [...usual.filter(isWanted), ...others];
  if (!routings.some(({ wiring }) => wiring)) {
    throw new UserError(`none of these routings is possible with this rig: ${routings[0]?.reason ?? ""}`);
  }
  if (asked && !asked.wiring)
    throw new UserError(`the reference "${asked.id}" is not possible with this rig: ${asked.reason}`);
  return { routings, reference: asked ?? referenceOf(routings) ?? null };
}

function placedRouting(rig: Rig, places: string): Routing {
  const plan = parsePlaces(rig, places);
  if (typeof plan === "string") throw new UserError(plan);
  return planRouting(rig, plan);
}

function found(rig: Rig, usual: readonly Routing[], id: string): Routing {
  const known = usual.find((routing) => routing.id === id) ?? routingNamed(rig, id);
  if (typeof known !== "string") return known;
  throw new UserError(isPlanLike(id) ? known : unknownRouting(id, usual));
}

/** True for what was meant as a plan: several groups, or a place at the end. */
const isPlanLike = (id: string): boolean =>
  id.includes(".") || placeChoices.some((place) => id.endsWith(`-${place}`));

function unknownRouting(id: string, all: readonly Routing[]): string {
  const words = all.map((routing) => routing.id);
  const near = nearest(id, words);
  return `"${id}" is no routing of this rig${near ? `; did you mean "${near}"?` : "."} There are ${words.join(", ")}; \`options RIG --all\` lists every plan.`;
}
