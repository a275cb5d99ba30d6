import { type Footswitch, footswitchesOf, withSwitchesOff } from "../../rig/wiring/footswitches.js";
import type { Wiring } from "../../rig/wiring/wiring.js";

/** One setting of all footswitches of a wiring. */
export interface SwitchState {
  /** A digit a switch, in the order of the signal: 1 on, 0 off. */
  readonly id: string;
  /** Labels of the boxes that are on, and of those that are off. */
  readonly on: readonly string[];
  readonly off: readonly string[];
}

/** Up to this many switches all their states are looked at. */
export const mostSwitchesForAll = 6;

/** The state with these switches off, told by their place; all others on. */
export function stateOf(switches: readonly Footswitch[], off: ReadonlySet<number>): SwitchState {
  const labels = (isOff: boolean) =>
    switches.flatMap(({ label }, n) => (off.has(n) === isOff ? [label] : []));
  return {
    id: switches.map((_, n) => (off.has(n) ? "0" : "1")).join(""),
    on: labels(false),
    off: labels(true),
  };
}

/** All 2^n states, the one with everything on first. */
export function allStates(switches: readonly Footswitch[]): readonly SwitchState[] {
  return Array.from({ length: 2 ** switches.length }, (_, code) =>
    stateOf(
      switches,
      new Set(switches.flatMap((_box, n) => (Math.floor(code / 2 ** n) % 2 === 1 ? [n] : []))),
    ),
  );
}

/** The chosen states, each once, and what one press of each switch makes of them. */
export function withNeighbours(
  switches: readonly Footswitch[],
  chosen: readonly ReadonlySet<number>[],
): readonly SwitchState[] {
  const states = chosen.flatMap((off) => [
    stateOf(switches, off),
    ...switches.map((_, n) => stateOf(switches, toggled(off, n))),
  ]);
  return [...new Map(states.map((state) => [state.id, state])).values()];
}

/** Whether the switch at a place is on in the state of this id. */
export const isOn = (id: string, place: number): boolean => id[place] === "1";

/** Whether all are on. */
export const isAllOn = (id: string): boolean => [...id].every((_, place) => isOn(id, place));

/** The id with one switch turned off. */
export const idWithOff = (id: string, place: number): string =>
  `${id.slice(0, place)}0${id.slice(place + 1)}`;

/** The same wiring with its footswitches as `id` has them. */
export const inState = (wiring: Wiring, id: string): Wiring =>
  withSwitchesOff(
    wiring,
    new Set(footswitchesOf(wiring).flatMap((each, n) => (isOn(id, n) ? [] : [each.id]))),
  );

/** The same wiring with the footswitch of every pedal off, and every mute open. */
export const withAllOff = (wiring: Wiring): Wiring =>
  withSwitchesOff(
    wiring,
    new Set(footswitchesOf(wiring).flatMap(({ id, jack }) => (jack === null ? [id] : []))),
  );

function toggled(off: ReadonlySet<number>, place: number): ReadonlySet<number> {
  const next = new Set(off);
  if (!next.delete(place)) next.add(place);
  return next;
}
