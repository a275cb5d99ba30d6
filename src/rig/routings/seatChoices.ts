import type { Pedal, Place, Rig } from "../model/rig.js";
import { places } from "./places/places.js";
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

/**
 * What a builder tries first: a unit that shapes goes ahead of the split, one that adds goes beside; a second unit or a
 * stereo one is bought when neither will do (common practice, no source).
 */
const effortOf = (place: Place, addsSound: boolean): number => (addsSound ? adding : shaping)[place];

const adding: Readonly<Record<Place, number>> = {
  beside: 0,
  "beside-after": 1,
  first: 2,
  doubled: 3,
  stereo: 4,
  left: 3,
  right: 3,
  summed: 6,
};
const shaping: Readonly<Record<Place, number>> = {
  first: 0,
  beside: 2,
  doubled: 3,
  "beside-after": 4,
  stereo: 4,
  left: 5,
  right: 5,
  summed: 5,
};

/** An alternative is a purchase; a stereo unit that the player has found is less of a search. */
const extraEffort = (unit: Pedal, { place, takes }: Seat): number => {
  if (place !== "stereo") return takes === null ? 0 : 1;
  return unit.alternatives.some(({ jacks }) => jacks === "stereo") ? -2 : 0;
};
