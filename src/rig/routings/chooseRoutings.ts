import { nearest } from "../../text/nearest.js";
import { UserError } from "../../text/userError.js";
import type { Rig } from "../model/rig.js";
import type { Routing } from "./routing.js";
import { referenceOf, routingsOf } from "./routingsOf.js";

export interface RoutingChoice {
  /** In their usual order, impossible ones included. */
  readonly routings: readonly Routing[];
  readonly reference: Routing | null;
}

/**
 * The routings that a person asked for.
 * @param ids       words, or null for all
 * @param reference word of the one to compare with, or null for the usual: the stereo unit, or the first there is
 * @throws UserError for a word that is no routing of this rig, or a reference that is not possible
 */
export function chooseRoutings(
  rig: Rig,
  ids: readonly string[] | null,
  reference: string | null,
): RoutingChoice {
  const all = routingsOf(rig);
  for (const id of [...(ids ?? []), ...(reference ? [reference] : [])]) {
    if (!all.some((routing) => routing.id === id)) throw new UserError(unknownRouting(id, all));
  }
  const routings = all.filter(({ id }) => ids === null || ids.includes(id) || id === reference);
  if (!routings.some(({ wiring }) => wiring)) {
    throw new UserError(`none of these routings is possible with this rig: ${routings[0]?.reason ?? ""}`);
  }
  const asked = routings.find(({ id }) => id === reference);
  if (asked && !asked.wiring)
    throw new UserError(`the reference "${asked.id}" is not possible with this rig: ${asked.reason}`);
  return { routings, reference: asked ?? referenceOf(routings) ?? null };
}

function unknownRouting(id: string, all: readonly Routing[]): string {
  const words = all.map((routing) => routing.id);
  const near = nearest(id, words);
  return `"${id}" is no routing of this rig; ${near ? `did you mean "${near}"? ` : ""}There are ${words.join(", ")}.`;
}
