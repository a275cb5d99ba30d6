import { didYouMean } from "../../text/nearest.js";
import { quoted } from "../../text/words.js";
import { chainOf } from "../model/chain.js";
import type { Place, Rig } from "../model/rig.js";
import { noUnit } from "./noUnit.js";
import { placeRules, places } from "./places/places.js";
import { branchesOf, type Plan, type Seat } from "./plan.js";
import { planOf } from "./planId.js";
import { choicesOf } from "./seatChoices.js";
import { pedalOf, seatAhead } from "./seats.js";
import { hasWetAlone, whyNot } from "./sense.js";

/** A unit or an alternative, and the place it is given. */
export interface Placed {
  readonly name: string;
  readonly place: Place;
}

/**
 * The plan in which these units have these places and the others go where a builder tries first. A unit without a wet
 * sound alone that goes beside shares the branch of the unit next behind it, where that goes there too.
 * @returns the plan, or what is wrong, in one sentence
 */
export function placedPlan(rig: Rig, placed: readonly Placed[]): Plan | string {
  const said: Seat[] = [];
  for (const { name, place } of placed) {
    const seat = seatNamed(rig, name, place);
    if (typeof seat === "string") return seat;
    said.push(seat);
  }
  const seats = chainOf(rig).units.flatMap((unit) => {
    const own = said.filter((seat) => seat.unit === unit.name);
    const [usual] = [...choicesOf(rig, unit)].sort((a, b) => a.effort - b.effort);
    return own.length > 0 || !usual ? own : [usual.seat];
  });
  return whyNot(rig, seats) ?? planOf(rig, branchesOf(sharing(rig, seats)).flat());
}

/** Reads "Tank=beside, Grit=first": units by name, each with its place. @returns the plan, or what is wrong */
export function parsePlaces(rig: Rig, words: string): Plan | string {
  const placed: Placed[] = [];
  for (const word of words.split(",")) {
    const at = word.lastIndexOf("=");
    const [name, said] = [word.slice(0, Math.max(0, at)).trim(), word.slice(at + 1).trim()];
    const place = places.find((known) => known === said);
    if (name === "")
      return `${quoted(word.trim())} is no unit and place; write UNIT=PLACE, as in "Tank=beside".`;
    if (!place)
      return `${quoted(said)} is no place; a place is one of ${places.join(", ")}.${didYouMean(said, places)}`;
    placed.push({ name, place });
  }
  return placedPlan(rig, placed);
}

/** The unit of that name, or the one whose alternative it is. */
function seatNamed(rig: Rig, name: string, place: Place): Seat | string {
  const { units } = chainOf(rig);
  const unit = units.find(
    (each) => each.name === name || each.alternatives.some((other) => other.name === name),
  );
  if (!unit)
    return noUnit(
      name,
      rig.pedals,
      units.map((each) => each.name),
    );
  const other = unit.alternatives.find((each) => each.name === name);
  if (!other) return { unit: unit.name, place, takes: null, joined: false };
  if ((other.jacks === "stereo") === (place === "stereo"))
    return { unit: unit.name, place, takes: name, joined: false };
  const goes =
    other.jacks === "stereo"
      ? "a stereo unit: its place is stereo"
      : "a mono unit: its place is any but stereo";
  return `${quoted(name)} is ${goes}.`;
}

function sharing(rig: Rig, seats: readonly Seat[]): readonly Seat[] {
  return seats.map((seat) => {
    const ahead = seatAhead(rig, seats, seat.unit);
    const shares = placeRules[seat.place].isBranch;
    const joined = shares && ahead?.place === seat.place && !hasWetAlone(pedalOf(rig, ahead));
    return { ...seat, joined };
  });
}
