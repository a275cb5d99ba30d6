import { chainOf } from "../model/chain.js";
import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { Board } from "./board.js";
import { inLine } from "./walk.js";

/** The mono units move ahead of the first stereo pedal, in their own order; the stereo pedals then act on wet sound. */
export function unitFirst(rig: Rig): DrawnRouting {
  const { ahead, units, stereoPedals } = chainOf(rig);
  const board = new Board();
  let signal = board.take();
  for (const pedal of ahead) signal = board.pedal(pedal, signal);
  signal = inLine(board, units, signal);
  for (const pedal of stereoPedals) signal = board.pedal(pedal, signal);
  return { wiring: board.deliver(signal, rig.playsInto), cautions: board.cautions };
}
