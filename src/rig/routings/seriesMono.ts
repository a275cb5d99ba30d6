import { chainOf } from "../model/chain.js";
import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { Board } from "./board.js";

/** The whole rig in mono, in the order given: each stereo pedal by its mono input and output. */
export function seriesMono(rig: Rig): DrawnRouting {
  const { units } = chainOf(rig);
  const board = new Board();
  const signal = rig.pedals.reduce(
    (into, pedal) => board.pedal(pedal, into, { stereo: false, isUnit: units.includes(pedal) }),
    board.take(),
  );
  return { wiring: board.deliver(signal, rig.playsInto), cautions: board.cautions };
}
