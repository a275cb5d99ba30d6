import type { Pedal } from "../model/rig.js";
import type { Board, Signal } from "./board.js";

/** Units one after the other. */
export const inRow = (board: Board, units: readonly Pedal[], signal: Signal): Signal =>
  units.reduce<Signal>((into, pedal) => board.pedal(pedal, into, { isUnit: true }), signal);
