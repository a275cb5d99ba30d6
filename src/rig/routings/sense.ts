import { chainOf } from "../model/chain.js";
import type { Pedal, Place, Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import { isMonoDestination } from "./board.js";
import { placeRules } from "./places/places.js";
import { type Seat, uniformPlace } from "./plan.js";
import { pedalOf, seatAhead } from "./seats.js";

/** True for a unit whose effect stands beside the dry sound, so that it can be had alone; else it shapes all of it. */
export const hasWetAlone = ({ model }: Pedal): boolean => modelOf(model).additive;

/** Why no unit of this rig can have a place; null where one can. */
export function whyImpossible(rig: Rig, place: Place): string | null {
  if (rig.instrument.outputs === 1) return null;
  if (place === "first")
    return "The instrument has two outputs: the split is at the source, and nothing can stand ahead of it.";
  const hasStereo = chainOf(rig).stereoPedals.length > 0;
  if (place === "beside" && !hasStereo)
    return "No stereo pedal stands between the instrument and the mixer: beside is wired as beside-after here.";
  return null;
}

/** Why a plan cannot be built with this rig; null when it can. */
export function whyNot(rig: Rig, seats: readonly Seat[]): string | null {
  const reasons = seats.map(({ place }) => whyImpossible(rig, place));
  return reasons.find((reason) => reason !== null) ?? null;
}

/** Why a unit had better not have a place, whatever the others do; null where nothing speaks against it. */
export function whySenseless(rig: Rig, unit: string, place: Place): string | null {
  const after = rig.pedals.slice(rig.pedals.findIndex(({ name }) => name === unit) + 1);
  if (place === "summed" && after.every(({ jacks }) => jacks === "mono"))
    return `Nothing behind ${unit} makes width again: all is mono from there, which series-mono gives with fewer boxes.`;
  const sum = after.find(({ jacks }) => jacks === "mono-to-stereo");
  return sum && keepsApart(place) ? whyWasted(`${sum.name}, which has one input`, unit) : null;
}

/** True for a place that is there for the difference between the sides. */
export const keepsApart = (place: Place): boolean => placeRules[place].keepsApart;

const whyWasted = (into: string, unit: string): string =>
  `Both sides are summed into ${into}: nothing is won by keeping them apart at ${unit} ahead of it.`;

/** Why a branch of these units has no wet sound alone to return; null when its last one has. */
export function whyNoBranch(last: Pedal): string | null {
  if (hasWetAlone(last)) return null;
  const kind = modelOf(last.model).kind.toLowerCase();
  return `${last.name} shapes its whole input (${kind}) and has no wet sound alone: beside, it lies on top of the direct sound. It goes there only ahead of a unit that has one, in the same branch.`;
}

export const whyNoSide =
  "A unit on one side alone makes the image lean. Two of one kind next to each other may have a side each.";

export const whyNoWidth =
  "Left and right are summed at the destination: whatever keeps them apart until there is lost. series-mono is simpler.";

/**
 * What speaks against a plan that can be built, in one sentence, the first of it; null when nothing does. What one of
 * the eight routings is, it says itself; only that a unit has nothing to return depends on the rig.
 */
export const doubtOf = (rig: Rig, seats: readonly Seat[]): string | null =>
  branchDoubt(rig, seats) ?? (isNamed(seats) ? null : mixedDoubt(rig, seats));

/** True for a plan that can be built and against which nothing speaks, be it one of the eight or not. */
export const isSensible = (rig: Rig, seats: readonly Seat[]): boolean =>
  (whyNot(rig, seats) ?? branchDoubt(rig, seats) ?? mixedDoubt(rig, seats)) === null;

/** True for the plan of one of the eight routings. */
export function isNamed(seats: readonly Seat[]): boolean {
  const place = uniformPlace(seats);
  return place !== null && placeRules[place].uniform !== null;
}

function branchDoubt(rig: Rig, seats: readonly Seat[]): string | null {
  const open = seats.filter(
    ({ unit, place }) => placeRules[place].isBranch && !isFollowedInBranch(rig, seats, unit),
  );
  const reasons = open.map((seat) => whyNoBranch(pedalOf(rig, seat)));
  return reasons.find((reason) => reason !== null) ?? null;
}

const isFollowedInBranch = (rig: Rig, seats: readonly Seat[], unit: string): boolean =>
  seats.some((seat) => seat.joined && seatAhead(rig, seats, seat.unit)?.unit === unit);

function mixedDoubt(rig: Rig, seats: readonly Seat[]): string | null {
  if (isMonoDestination(rig.playsInto)) return whyNoWidth;
  const senseless = seats.map(({ unit, place }) => whySenseless(rig, unit, place));
  return senseless.find((reason) => reason !== null) ?? wasteDoubt(seats) ?? sideDoubt(rig, seats);
}

/** Nothing is kept apart ahead of a unit that stands on the sum. */
function wasteDoubt(seats: readonly Seat[]): string | null {
  const sum = seats.findLastIndex(({ place }) => place === "summed");
  const wasted = seats.slice(0, Math.max(0, sum)).find(({ place }) => keepsApart(place));
  return wasted ? whyWasted(seats[sum].unit, wasted.unit) : null;
}

/** Every left unit has a right one of its kind next behind it, and every right one a left. */
function sideDoubt(rig: Rig, seats: readonly Seat[]): string | null {
  const kind = (seat: Seat) => modelOf(pedalOf(rig, seat).model).kind;
  const paired = new Set<Seat>();
  for (const seat of seats) {
    const ahead = seatAhead(rig, seats, seat.unit);
    if (seat.place !== "right" || ahead?.place !== "left" || kind(seat) !== kind(ahead)) continue;
    paired.add(seat).add(ahead);
  }
  const alone = seats.some((seat) => (seat.place === "left" || seat.place === "right") && !paired.has(seat));
  return alone ? whyNoSide : null;
}
