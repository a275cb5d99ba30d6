import { chainOf } from "../model/chain.js";
import type { Pedal, Place, Rig } from "../model/rig.js";
import { stereoTwin } from "./otherUnits.js";
import type { Branch } from "./places/placeRule.js";
import type { Seat } from "./plan.js";

/** Units next to each other in one place, in their branches. */
export interface Row {
  readonly place: Place;
  readonly branches: readonly Branch[];
}

/**
 * The pedal that takes a seat: the unit itself, the alternative in its stead, or its stereo twin.
 * @throws Error for a name that the rig does not have: plans are read against the rig
 */
export function pedalOf(rig: Rig, { unit, place, takes }: Seat): Pedal {
  const own = rig.pedals.find(({ name }) => name === unit);
  const taken = takes === null ? own : own?.alternatives.find(({ name }) => name === takes);
  if (!own || !taken) throw new Error(`"${takes ?? unit}" is no unit of this rig`);
  return place === "stereo" && takes === null ? stereoTwin(own, rig) : taken;
}

/** The seat next ahead of a unit's in its run, not counting units that move ahead of the split; undefined where none is. */
export function seatAhead(rig: Rig, seats: readonly Seat[], unit: string): Seat | undefined {
  const run = chainOf(rig).stages.find(
    (stage) => stage.kind === "units" && stage.pedals.some(({ name }) => name === unit),
  );
  const names = run?.kind === "units" ? run.pedals.map(({ name }) => name) : [];
  const ahead = names.slice(0, names.indexOf(unit));
  return seats.findLast((seat) => ahead.includes(seat.unit) && seat.place !== "first");
}

/** Seats in rows: those of one place that follow each other, a joined one in the branch of the one ahead of it. */
export function rowsOf(rig: Rig, seats: readonly Seat[]): readonly Row[] {
  const rows: { place: Place; branches: Pedal[][] }[] = [];
  for (const seat of seats) {
    const pedal = pedalOf(rig, seat);
    const row = rows.at(-1);
    if (row?.place !== seat.place) rows.push({ place: seat.place, branches: [[pedal]] });
    else if (seat.joined) row.branches.at(-1)?.push(pedal);
    else row.branches.push([pedal]);
  }
  return rows;
}
