import { chainOf } from "../model/chain.js";
import type { Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { Board, isMonoDestination, type Signal } from "./board.js";
import { fullyWetReturns } from "./returns.js";

/**
 * A split ahead of the first stereo pedal. One output feeds the stereo pedals, one each of the mono units, which run
 * fully wet side by side and return to both buses of a stereo mixer at the end.
 */
export function parallel(rig: Rig): DrawnRouting {
  const { ahead, units, stereoPedals } = chainOf(rig);
  const board = new Board();
  let signal = board.take();
  for (const pedal of ahead) signal = board.pedal(pedal, signal);
  const [main, ...feeds] = board.split(signal, 1 + units.length);
  let sides: Signal = [main!];
  for (const pedal of stereoPedals) sides = board.pedal(pedal, sides);
  const returns = fullyWetReturns(board, units, feeds, rig, stereoPedals);
  const outputs = isMonoDestination(rig.playsInto) ? 1 : 2;
  const mixed = board.mixer(sides, returns, { dryDb: rig.mixer.dryDb, outputs });
  return { wiring: board.deliver(mixed, rig.playsInto), cautions: board.cautions };
}
