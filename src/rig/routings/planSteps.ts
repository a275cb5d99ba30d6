import type { Place } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import { placeRules } from "./places/places.js";
import type { Seat } from "./plan.js";
import type { Choice } from "./seatChoices.js";
import { hasWetAlone, keepsApart } from "./sense.js";

/** The seats of the first units, the last seat first. */
export interface Beginning {
  readonly effort: number;
  readonly last: Seat | null;
  readonly before: Beginning | null;
}

/** All seats of a beginning, in the order of the rig. */
export function seatsOf(beginning: Beginning): readonly Seat[] {
  const seats: Seat[] = [];
  for (let at: Beginning | null = beginning; at?.last; at = at.before) seats.push(at.last);
  return seats.reverse();
}

/** Beginnings that may go on in the same ways: how many there are, and the best of them, the least effort first. */
export interface Group {
  readonly state: State;
  readonly count: number;
  readonly best: readonly Beginning[];
}

/** What the next unit of a run must know. */
interface State {
  /** The unit next ahead in this run, not counting those that move ahead of the split. */
  readonly ahead: Choice | null;
  /** What that one still waits for: a unit with a wet sound behind it in its branch, or one of its kind on the right. */
  readonly waitsFor: "branch" | "side" | null;
  /** Some unit before stays behind: what moves ahead now changes the order of units as well. */
  readonly staysBehind: boolean;
  /** Some unit before is there for the difference between the sides, which a sum would take away. */
  readonly isApart: boolean;
  /** Some unit before returns to a mixer: the last one, or one in the row. */
  readonly toLast: boolean;
  readonly toOwn: boolean;
}

export const begin: readonly Group[] = [
  {
    state: {
      ahead: null,
      waitsFor: null,
      staysBehind: false,
      isApart: false,
      toLast: false,
      toOwn: false,
    },
    count: 1,
    best: [{ effort: 0, last: null, before: null }],
  },
];

/** Every beginning with every choice for the next unit that it allows; `keep` of each group. */
export function extended(
  groups: readonly Group[],
  choices: readonly Choice[],
  keep: number,
): readonly Group[] {
  const next = groups.flatMap((group) =>
    choices.flatMap((choice) => [false, true].flatMap((joined) => step(group, choice, joined))),
  );
  return merged(next, keep);
}

/** The end of a run: nothing may wait any more, and the next run has nobody ahead. */
export function closed(groups: readonly Group[], keep: number): readonly Group[] {
  const done = groups.filter(({ state }) => state.waitsFor === null);
  return merged(
    done.map((group) => ({ ...group, state: { ...group.state, ahead: null } })),
    keep,
  );
}

function step({ state, count, best }: Group, choice: Choice, joined: boolean): readonly Group[] {
  const next = stateAfter(state, choice, joined);
  if (!next) return [];
  const effort = choice.effort + (joined ? 1 : 0) + effortBetween(state, choice.seat.place);
  const last = joined ? { ...choice.seat, joined } : choice.seat;
  const after = best.map((before) => ({ effort: before.effort + effort, last, before }));
  return [{ state: next, count, best: after }];
}

/** A changed order of units, or mixers in two places, beside the effort of the place itself. */
function effortBetween({ staysBehind, toLast, toOwn }: State, place: Place): number {
  if (place === "first") return staysBehind ? 1 : 0;
  const { isBranch, around } = placeRules[place];
  return isBranch && (around ? toOwn : toLast) ? 2 : 0;
}

/** Null where this choice may not follow. */
function stateAfter(state: State, choice: Choice, joined: boolean): State | null {
  const { ahead, waitsFor } = state;
  const { place } = choice.seat;
  if (place === "first") return joined ? null : state;
  const { isBranch: branches, around, inRow } = placeRules[place];
  if (joined && !(branches && ahead?.seat.place === place)) return null;
  if (waitsFor === "branch" && !joined) return null;
  const isPair =
    waitsFor === "side" &&
    ahead !== null &&
    modelOf(ahead.pedal.model).kind === modelOf(choice.pedal.model).kind;
  if ((waitsFor === "side" || place === "right") && !(isPair && place === "right")) return null;
  if (place === "summed" && state.isApart) return null;
  const waits = place === "left" ? "side" : branches && !hasWetAlone(choice.pedal) ? "branch" : null;
  return {
    ahead: choice,
    waitsFor: waits,
    staysBehind: true,
    isApart: state.isApart || keepsApart(place),
    toLast: state.toLast || (branches && around !== null),
    toOwn: state.toOwn || (branches && inRow !== null),
  };
}

/** Groups of one state as one, the best beginnings first. */
function merged(groups: readonly Group[], keep: number): readonly Group[] {
  const byKey = new Map<string, Group[]>();
  for (const group of groups) {
    const key = keyOf(group.state);
    byKey.set(key, [...(byKey.get(key) ?? []), group]);
  }
  return [...byKey.values()].map((alike) => ({
    state: alike[0].state,
    count: alike.reduce((sum, { count }) => sum + count, 0),
    best: byEffort(alike.flatMap(({ best }) => best)).slice(0, keep),
  }));
}

/** States in which the next unit has the same choices at the same effort. */
function keyOf({ ahead, waitsFor, ...rest }: State): string {
  const place = ahead?.seat.place;
  const branch = place && placeRules[place].isBranch ? place : "";
  const kind = waitsFor === "side" && ahead ? modelOf(ahead.pedal.model).kind : "";
  return [branch, waitsFor, kind, rest.staysBehind, rest.isApart, rest.toLast, rest.toOwn].join(" ");
}

/** The least effort first; equals stay in the order in which choices come. */
export const byEffort = (beginnings: readonly Beginning[]): readonly Beginning[] =>
  [...beginnings].sort((a, b) => a.effort - b.effort);
