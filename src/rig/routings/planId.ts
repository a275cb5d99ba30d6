import { uniqueFileNames } from "../../text/fileName.js";
import { didYouMean } from "../../text/nearest.js";
import { andList, quoted } from "../../text/words.js";
import { chainOf } from "../model/chain.js";
import type { Place, Rig } from "../model/rig.js";
import { placeRules, places } from "./places/places.js";
import { branchesOf, type Plan, type Seat, uniformPlace } from "./plan.js";
import { seatAhead } from "./seats.js";

/**
 * The id of a plan: a routing's where all units have one place, else every unit's word and place in the order of the
 * rig, `wobble-first.grit-first.tank-beside`; units of one branch as `carter+grain-floor-beside`. Words are names made
 * safe as in file names, with a number where two would be one word; an alternative stands under its own.
 */
export const planIdOf = (rig: Rig, seats: readonly Seat[]): string => planNamer(rig)(seats);

/** `planIdOf` for many plans of one rig: its words are made once. */
export function planNamer(rig: Rig): (seats: readonly Seat[]) => string {
  const words = wordsOf(rig);
  return (seats) => {
    const place = uniformPlace(seats);
    const uniform = place && placeRules[place].uniform;
    if (uniform) return uniform.id;
    const groups = branchesOf(seats).map((branch) => {
      const units = branch.map(({ unit, takes }) => words.wordOf(takes ?? unit));
      return `${units.join("+")}-${branch[0].place}`;
    });
    return groups.join(".");
  };
}

/** The plan in which every unit has this place, itself and in a branch of its own. */
export function uniformPlan(rig: Rig, place: Place): Plan {
  const seats = chainOf(rig).units.map(
    ({ name }): Seat => ({ unit: name, place, takes: null, joined: false }),
  );
  return { id: planIdOf(rig, seats), seats };
}

/**
 * The plan of an id, as `planIdOf` prints it or in full where that is a routing's; units may stand in any order.
 * @returns the plan under its proper id, or what is wrong with this one, in one sentence
 */
export function parsePlanId(rig: Rig, id: string): Plan | string {
  const place = places.find((word) => placeRules[word].uniform?.id === id);
  if (place) return uniformPlan(rig, place);
  const said: Seat[] = [];
  for (const group of id.split(".")) {
    const seats = seatsOfGroup(rig, group);
    if (typeof seats === "string") return seats;
    said.push(...seats);
  }
  return planOf(rig, said);
}

/** Seats in any order as a plan; or what is wrong: a unit twice or without a place, a branch that cannot be one. */
export function planOf(rig: Rig, said: readonly Seat[]): Plan | string {
  const { units } = chainOf(rig);
  const seats = units.flatMap(({ name }) => said.filter(({ unit }) => unit === name));
  for (const { name } of units) {
    const count = seats.filter(({ unit }) => unit === name).length;
    if (count === 0)
      return `${quoted(name)} has no place; every mono unit needs one of ${places.join(", ")}.`;
    if (count > 1) return `${quoted(name)} has ${count} places. Give it one.`;
  }
  for (const [n, seat] of said.entries()) {
    if (!seat.joined) continue;
    const ahead = said[n - 1];
    if (ahead?.place !== seat.place || seatAhead(rig, seats, seat.unit)?.unit !== ahead.unit) {
      return `${quoted(seat.unit)} does not stand next behind ${quoted(ahead?.unit ?? "")}; units of one branch are neighbours, in the order of the rig.`;
    }
  }
  return { id: planIdOf(rig, seats), seats };
}

function seatsOfGroup(rig: Rig, group: string): readonly Seat[] | string {
  const place = places.find((word) => group.endsWith(`-${word}`));
  if (!place) {
    return `${quoted(group)} names no place; write UNIT-PLACE, the place one of ${places.join(", ")}.`;
  }
  const words = wordsOf(rig);
  const seats: Seat[] = [];
  for (const word of group.slice(0, -place.length - 1).split("+")) {
    const named = words.meaning(word);
    if (!named) {
      return `${quoted(word)} is no mono unit of this rig; they are ${andList(words.all)}.${didYouMean(word, words.all)}`;
    }
    seats.push({ ...named, place, joined: seats.length > 0 });
  }
  return seats;
}

/** Words of mono units and their alternatives, no two alike. */
function wordsOf(rig: Rig) {
  const { units } = chainOf(rig);
  const named = [
    ...units.map(({ name }) => ({ unit: name, takes: null })),
    ...units.flatMap(({ name, alternatives }) =>
      alternatives.map((alternative) => ({ unit: name, takes: alternative.name })),
    ),
  ];
  const all = uniqueFileNames(named.map(({ unit, takes }) => takes ?? unit));
  return {
    all,
    wordOf: (name: string): string => all[named.findIndex(({ unit, takes }) => (takes ?? unit) === name)],
    meaning: (word: string) => named[all.indexOf(word)],
  };
}
