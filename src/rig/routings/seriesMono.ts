import { chainOf } from "../model/chain.js";
import type { Rig } from "../model/rig.js";
import { Board } from "./board.js";
import type { Drawn } from "./walk.js";

/** The whole rig in mono, in the order given: each stereo pedal by its mono input and output. */
export function seriesMono(rig: Rig): Drawn {
  const { units } = chainOf(rig);
  const board = new Board();
  const signal = rig.pedals.reduce(
    (into, pedal) => board.pedal(pedal, into, { stereo: false, isUnit: units.includes(pedal) }),
    board.take(),
  );
  return { wiring: board.deliver(signal, rig.playsInto), cautions: board.cautions };
}
