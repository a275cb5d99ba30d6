import { andList, capital } from "../../text/words.js";
import { chainOf } from "../model/chain.js";
import type { Place, Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import { allWetWords } from "../wiring/wetWords.js";
import { placeRules } from "./places/places.js";
import { branchesOf, type Plan, type Seat, uniformPlace } from "./plan.js";
import { pedalOf } from "./seats.js";

/**
 * A plan as people call it: "Reverb first", "Tremolo and overdrive first, reverb beside". Alternatives, and units of
 * one kind among others of it, are told by name as well: "reverb (Tank)".
 */
export function planLabel(rig: Rig, { seats }: Pick<Plan, "seats">): string {
  const place = uniformPlace(seats);
  const uniform = place && placeRules[place].uniform;
  if (uniform) return uniform.label(chainOf(rig).units);
  const kinds = seats.map((seat) => modelOf(pedalOf(rig, seat).model).kind);
  const nameOf = (seat: Seat): string => {
    const isOne = kinds.filter((kind) => kind === kinds[seats.indexOf(seat)]).length === 1;
    return isOne && seat.takes === null ? "" : ` (${seat.takes ?? seat.unit})`;
  };
  const parts = partsOf(seats).map((part) => {
    const words = (count: "one" | "two") =>
      andList(
        part.seats.map((seat) => {
          const { model } = pedalOf(rig, seat);
          return `${count === "one" ? modelOf(model).kind.toLowerCase() : `two ${modelOf(model).plural}`}${nameOf(seat)}`;
        }),
      );
    const said = placeRules[part.place].part({ one: words("one"), two: words("two") });
    return part.seats.some(({ joined }) => joined) ? `${said} in one branch` : said;
  });
  return capital(parts.join(", "));
}

/** What becomes of every unit, in one sentence. */
export function planSays(rig: Rig, { seats }: Pick<Plan, "seats">): string {
  const place = uniformPlace(seats);
  const uniform = place && placeRules[place].uniform;
  // Of a branch that units share, the last one alone is wet.
  const wet = (some: readonly Seat[]) =>
    allWetWords(branchesOf(some).flatMap((branch) => branch.slice(-1).map((seat) => pedalOf(rig, seat))));
  if (uniform) return uniform.says(wet(seats));
  const parts = partsOf(seats).map((part) => {
    const names = andList(
      part.seats.map(({ unit, takes }) => (takes === null ? unit : `${takes} for ${unit}`)),
    );
    const branch = part.seats.some(({ joined }) => joined) ? " in one branch" : "";
    return `${names} ${placeRules[part.place].does(wet(part.seats))}${branch}`;
  });
  return `${parts.join("; ")}.`;
}

interface Part {
  readonly place: Place;
  readonly seats: readonly Seat[];
}

/** Seats by place, in the order in which places come up; those that share a branch by themselves. */
function partsOf(seats: readonly Seat[]): readonly Part[] {
  const parts: Part[] = [];
  for (const branch of branchesOf(seats)) {
    const [{ place }] = branch;
    const at = parts.findIndex((part) => part.place === place && !part.seats[1]?.joined);
    if (at < 0 || branch.length > 1) parts.push({ place, seats: branch });
    else parts[at] = { place, seats: [...parts[at].seats, ...branch] };
  }
  return parts;
}
