import { modelOf } from "../../rig/pedals/models.js";
import { isWet } from "../../rig/wiring/boxGains.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";

/** A pedal that no standard node makes as it is set. */
export interface NotStandard {
  /** Of its box. */
  readonly id: string;
  /** "Tank (spring): its chain of all-passes ...", without a full stop. */
  readonly why: string;
}

/**
 * Every pedal of a wiring that cannot be made of standard nodes, and why. `loopLateFrames`: see `loop.ts`; 0 by the
 * standard.
 */
export const notOfStandardNodes = (
  wiring: Wiring,
  rateHz: number,
  loopLateFrames = 0,
): readonly NotStandard[] =>
  soundingPedals(wiring).flatMap(({ id, pedal }) => {
    const { standard } = modelOf(pedal.model);
    const reason =
      typeof standard === "string" ? standard : standard.whyNot(pedal.settings, rateHz, loopLateFrames);
    return reason === null ? [] : [{ id, why: `${pedal.name} (${pedal.model}): ${reason}` }];
  });

/** True when what a wiring gives at one moment does not hang on when the take was played: nothing in it swings. */
export const isTimeInvariant = (wiring: Wiring): boolean =>
  soundingPedals(wiring).every(({ pedal }) => !modelOf(pedal.model).changesInTime);

/** Pedals that give more than their input. */
const soundingPedals = ({ boxes }: Wiring): readonly PedalBox[] =>
  boxes.flatMap((box) => (box.kind === "pedal" && isWet(box) ? [box] : []));
