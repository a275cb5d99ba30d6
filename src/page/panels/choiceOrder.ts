import { inLineId } from "../../rig/routings/routing.js";
import { dryId } from "../../rig/wiring/dryWiring.js";
import { answerIdOf } from "../contract/answerId.js";
import { reportOf, routingOf, type View } from "./view.js";

/** The choices of a page in the order in which a player hears of them. */
export interface ChoiceOrder {
  readonly first: readonly string[];
  /** One tap further. */
  readonly rest: readonly string[];
}

type Facts = Pick<View, "bench" | "data">;

/** So few more are not worth a tap. */
const fewMore = 2;
/** More that were kept are a whole rig. */
const mostKept = 4;

/**
 * First the answer, the next best, what was kept or recorded to be compared, all in mono, and what width is measured by:
 * as far as the page has them.
 */
export function choiceOrder(view: Facts): ChoiceOrder {
  const { choices } = view.bench.player;
  const { answer, reference } = reportOf(view);
  const { kept } = view.bench;
  const found = [answerIdOf(view.bench, view.data), answer.plan?.id];
  // Of a whole rig that was kept, what stands against the answer.
  const shown = kept.length > mostKept ? kept.filter(({ routing }) => found.includes(routing)) : kept;
  const recorded = choices.filter((id) => routingOf(view, id)?.recorded);
  const wanted = [...found, answer.next?.id, ...shown.map(({ id }) => id), ...recorded, inLineId, reference];
  const first = [...new Set(wanted)]
    .filter((id) => typeof id === "string")
    .filter((id) => choices.includes(id));
  const rest = choices.filter((id) => !first.includes(id));
  return rest.length > fewMore ? { first, rest } : { first: [...first, ...rest], rest: [] };
}

/** What a choice is among the others, in a word or two; empty for most. */
export function choiceRank(view: Facts, id: string): string {
  const { answer, reference } = reportOf(view);
  if (id === answerIdOf(view.bench, view.data)) return "the answer";
  if (id === answer.plan?.id) return "the answer on this take alone";
  if (id === answer.next?.id) return "next best";
  if (view.bench.kept.some((kept) => kept.id === id)) return "kept";
  if (routingOf(view, id)?.recorded) return "the real rig";
  return id === reference ? "the measure of width" : "";
}

/** Choices but for the dry take. */
export const wiringsOf = (view: Facts): readonly string[] =>
  view.bench.player.choices.filter((id) => id !== dryId);
