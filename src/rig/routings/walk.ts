import { chainOf } from "../model/chain.js";
import type { Pedal, Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import { Board, isStereo, type Signal, type StereoSignal } from "./board.js";

/**
 * What a routing does with a run of mono units that meets left and right. `suffix` tells the boxes of several such
 * runs apart: empty for one run, else " 1", " 2".
 */
export type UnitStage = (
  board: Board,
  units: readonly Pedal[],
  signal: StereoSignal,
  suffix: string,
) => Signal;

/** Lays the rig out in its own order; each run of mono units after the split goes through `unitStage`. */
export function walk(rig: Rig, unitStage: UnitStage): DrawnRouting {
  const { ahead, stages } = chainOf(rig);
  const runs = stages.filter((stage) => stage.kind === "units");
  const board = new Board();
  let signal = board.take();
  for (const pedal of ahead) signal = board.pedal(pedal, signal);
  for (const stage of stages) {
    if (stage.kind === "stereo") signal = board.pedal(stage.pedal, signal);
    else if (!isStereo(signal)) signal = inLine(board, stage.pedals, signal);
    else
      signal = unitStage(board, stage.pedals, signal, runs.length > 1 ? ` ${runs.indexOf(stage) + 1}` : "");
  }
  return { wiring: board.deliver(signal, rig.playsInto), cautions: board.cautions };
}

/** Mono units one after the other. */
export function inLine(board: Board, units: readonly Pedal[], signal: Signal): Signal {
  return units.reduce<Signal>((into, pedal) => board.pedal(pedal, into, { isUnit: true }), signal);
}
