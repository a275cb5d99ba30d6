import { inSignalOrder, type PedalBox, type Wiring } from "../../rig/wiring/wiring.js";

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

/** Boxes of a wiring with a footswitch, in the order of the signal. Two boxes of one pedal are two footswitches. */
export const switchesOf = (wiring: Wiring): readonly PedalBox[] =>
  inSignalOrder(wiring).filter((box): box is PedalBox => box.kind === "pedal" && box.pedal.hasFootswitch);

/** The state with these switches off, told by their place; all others on. */
export function stateOf(switches: readonly PedalBox[], off: ReadonlySet<number>): SwitchState {
  const labels = (isOff: boolean) =>
    switches.flatMap(({ label }, n) => (off.has(n) === isOff ? [label] : []));
  return {
    id: switches.map((_, n) => (off.has(n) ? "0" : "1")).join(""),
    on: labels(false),
    off: labels(true),
  };
}

/** All 2^n states, the one with everything on first. */
export function allStates(switches: readonly PedalBox[]): readonly SwitchState[] {
  return Array.from({ length: 2 ** switches.length }, (_, code) =>
    stateOf(
      switches,
      new Set(switches.flatMap((_box, n) => (Math.floor(code / 2 ** n) % 2 === 1 ? [n] : []))),
    ),
  );
}

/** The chosen states, each once, and what one press of each switch makes of them. */
export function withNeighbours(
  switches: readonly PedalBox[],
  chosen: readonly ReadonlySet<number>[],
): readonly SwitchState[] {
  const states = chosen.flatMap((off) => [
    stateOf(switches, off),
    ...switches.map((_, n) => stateOf(switches, toggled(off, n))),
  ]);
  return [...new Map(states.map((state) => [state.id, state])).values()];
}

/** The id with one switch turned off. */
export const idWithOff = (id: string, place: number): string =>
  `${id.slice(0, place)}0${id.slice(place + 1)}`;

/** The same wiring with its footswitches as `id` has them. */
export function inState(wiring: Wiring, id: string): Wiring {
  const off = new Set(switchesOf(wiring).flatMap((box, n) => (id[n] === "0" ? [box.id] : [])));
  return {
    cables: wiring.cables,
    boxes: wiring.boxes.map((box) =>
      box.kind === "pedal" && box.pedal.hasFootswitch ? { ...box, on: !off.has(box.id) } : box,
    ),
  };
}

/** The same wiring with every footswitch off. */
export const withAllOff = (wiring: Wiring): Wiring => inState(wiring, "0".repeat(switchesOf(wiring).length));

function toggled(off: ReadonlySet<number>, place: number): ReadonlySet<number> {
  const next = new Set(off);
  if (!next.delete(place)) next.add(place);
  return next;
}
