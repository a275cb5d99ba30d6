import type { Place } from "../model/rig.js";

/**
 * Where one mono unit of the rig goes. `beside` and `beside-after` units that are `joined` stand in the branch of the
 * unit ahead of them instead of in one of their own.
 */
export interface Seat {
  /** Name of the rig's pedal. */
  readonly unit: string;
  readonly place: Place;
  /** Name of the alternative that stands in its stead; null: the pedal itself, in `stereo` the usual stereo unit. */
  readonly takes: string | null;
  readonly joined: boolean;
}

/** A place for every mono unit of a rig, in the order of the rig. */
export interface Plan {
  readonly id: string;
  readonly seats: readonly Seat[];
}

/** Seats by branch: a joined one behind those that it shares the branch with, every other one by itself. */
export function branchesOf(seats: readonly Seat[]): readonly (readonly Seat[])[] {
  const branches: Seat[][] = [];
  for (const seat of seats) {
    const shared = seat.joined ? branches.findLast(([first]) => first.place === seat.place) : undefined;
    if (shared) shared.push(seat);
    else branches.push([seat]);
  }
  return branches;
}

/** The place that all units have, each itself and in a branch of its own; null where they differ. */
export function uniformPlace(seats: readonly Seat[]): Place | null {
  const [first] = seats;
  const isUniform = seats.every(
    ({ place, takes, joined }) => place === first?.place && takes === null && !joined,
  );
  return first && isUniform ? first.place : null;
}
