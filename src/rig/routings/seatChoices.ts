import type { Pedal, Place, Rig } from "../model/rig.js";
import { placeRules, places } from "./places/places.js";
import type { Seat } from "./plan.js";
import { pedalOf } from "./seats.js";
import { hasWetAlone, whyImpossible, whySenseless } from "./sense.js";

/** One way to seat a unit, as far as it does not depend on the others. */
export interface Choice {
  readonly seat: Seat;
  readonly pedal: Pedal;
  /** How far it is from what a builder tries first. */
  readonly effort: number;
}

/** Every place of a unit that this rig has and that makes sense by itself: for the unit and for each alternative. */
export function choicesOf(rig: Rig, unit: Pedal): readonly Choice[] {
  const open = places.filter(
    (place) => whyImpossible(rig, place) === null && whySenseless(rig, unit.name, place) === null,
  );
  const usual = unit.alternatives.find(({ jacks }) => jacks === "stereo")?.name;
  return open.flatMap((place) => {
    const others = unit.alternatives.filter(
      ({ jacks, name }) => (jacks === "stereo") === (place === "stereo") && name !== usual,
    );
    return [null, ...others.map(({ name }) => name)].map((takes): Choice => {
      const seat = { unit: unit.name, place, takes, joined: false };
      const pedal = pedalOf(rig, seat);
      return { seat, pedal, effort: effortOf(place, hasWetAlone(pedal)) + extraEffort(unit, seat) };
    });
  });
}

const effortOf = (place: Place, addsSound: boolean): number =>
  placeRules[place].effort[addsSound ? "adding" : "shaping"];

/** An alternative is a purchase; a stereo unit that the player has found is less of a search. */
const extraEffort = (unit: Pedal, { place, takes }: Seat): number => {
  if (place !== "stereo") return takes === null ? 0 : 1;
  return unit.alternatives.some(({ jacks }) => jacks === "stereo") ? -2 : 0;
};
