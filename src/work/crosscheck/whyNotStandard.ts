import { modelOf } from "../../rig/pedals/models.js";
import { isWet } from "../../rig/wiring/boxGains.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import { notStandard, standardModels } from "./standardModels.js";

/**
 * Why a wiring cannot be rendered by standard nodes: every pedal of it that no standard node makes, and why, as a
 * sentence without its full stop; null when it can. `loopLateFrames`: see `loop.ts`; 0 by the standard.
 */
export function whyNotStandard(wiring: Wiring, rateHz: number, loopLateFrames = 0): string | null {
  const reasons = soundingPedals(wiring).flatMap(({ pedal }) => {
    const reason =
      pedal.model in standardModels
        ? standardModels[pedal.model].whyNot(pedal.settings, rateHz, loopLateFrames)
        : (notStandard[pedal.model] ?? "no standard node makes it");
    return reason === null ? [] : [`${pedal.name} (${pedal.model}): ${reason}`];
  });
  return reasons.length === 0 ? null : [...new Set(reasons)].join("; ");
}

/** True when what a wiring gives at one moment does not hang on when the take was played: nothing in it swings. */
export const isTimeInvariant = (wiring: Wiring): boolean =>
  soundingPedals(wiring).every(({ pedal }) => !modelOf(pedal.model).changesInTime);

/** Pedals that give more than their input. */
const soundingPedals = ({ boxes }: Wiring): readonly PedalBox[] =>
  boxes.flatMap((box) => (box.kind === "pedal" && isWet(box) ? [box] : []));
