import { andList } from "../../text/words.js";
import { chainOf } from "../model/chain.js";
import type { Place, Rig } from "../model/rig.js";
import { isMonoDestination } from "./board.js";
import { placeRules, places } from "./places/places.js";
import { hasWetAlone, whyImpossible, whyNoBranch, whyNoSide, whyNoWidth, whySenseless } from "./sense.js";

/** Plans that are not listed: a place for every unit or for one, and why. */
export interface LeftOut {
  readonly what: string;
  readonly reason: string;
}

/** What is left out of the mixed plans of a rig, in the order of places; what holds for all units is told once. */
export function leftOut(rig: Rig): readonly LeftOut[] {
  const { units } = chainOf(rig);
  if (units.length === 0) return [];
  if (isMonoDestination(rig.playsInto)) return [{ what: "mixed plans", reason: whyNoWidth }];
  const ofOne = (place: Place) =>
    units.flatMap((unit): LeftOut[] => {
      const { isBranch } = placeRules[place];
      const reason =
        whySenseless(rig, unit.name, place) ?? (isBranch && !hasWetAlone(unit) ? whyNoBranch(unit) : null);
      return reason === null ? [] : [{ what: `${unit.name} ${place}`, reason }];
    });
  const all = places.flatMap((place): LeftOut[] => {
    const reason = whyImpossible(rig, place);
    if (reason !== null) return [{ what: place, reason }];
    if (place === "left") return [{ what: "left or right", reason: whyNoSide }];
    return ofOne(place);
  });
  return [...new Set(all.map(({ reason }) => reason))].map((reason) => {
    const alike = all.filter((each) => each.reason === reason).map(({ what }) => what);
    return { what: andList(alike, "or"), reason };
  });
}
