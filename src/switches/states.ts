import type { PedalBox, Wiring } from "../wiring/wiring.js";

/** Boxes of a wiring with a footswitch, in the order in which they stand. Two of one pedal are two switches. */
export const switchesOf = (wiring: Wiring): readonly PedalBox[] =>
  wiring.boxes.filter((box): box is PedalBox => box.kind === "pedal" && box.pedal.hasFootswitch);

/** The same wiring with some footswitches off and all others on. */
export const withOff = (wiring: Wiring, off: ReadonlySet<string>): Wiring => ({
  cables: wiring.cables,
  boxes: wiring.boxes.map((box) =>
    box.kind === "pedal" && box.pedal.hasFootswitch ? { ...box, on: !off.has(box.id) } : box,
  ),
});

/** The same wiring with every footswitch off. */
export const withAllOff = (wiring: Wiring): Wiring =>
  withOff(wiring, new Set(switchesOf(wiring).map(({ id }) => id)));
