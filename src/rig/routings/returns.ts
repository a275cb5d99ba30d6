import type { Pedal, Rig } from "../model/rig.js";
import type { Jack } from "../wiring/wiring.js";
import type { Board, MixerReturn } from "./board.js";
import { returnGainDb } from "./monoUnits.js";

/**
 * The mono units side by side, fully wet, each fed by its own jack and returned to the mixer; `beside` are the pedals
 * that the other way to the mixer goes through.
 */
export function fullyWetReturns(
  board: Board,
  units: readonly Pedal[],
  feeds: readonly Jack[],
  rig: Rig,
  beside: readonly Pedal[] = [],
): MixerReturn[] {
  return units.map((pedal, n) => ({
    from: board.pedal(pedal, [feeds[n]], { fullyWet: true, isUnit: true })[0],
    gainDb: returnGainDb(pedal, rig, beside),
    pan: rig.mixer.returnPan,
  }));
}
