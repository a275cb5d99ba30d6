import { combOf, dryPaths, sideDelayMs, strongest } from "../../rig/wiring/dryPaths.js";
import { footswitchesOf } from "../../rig/wiring/footswitches.js";
import type { Box, Wiring } from "../../rig/wiring/wiring.js";
import { type Surroundings, surroundingsOf } from "./cures.js";
import { change, flagsOf } from "./flags.js";
import type { StateLevels } from "./measureStates.js";
import { idWithOff, inState, isOn, type SwitchState } from "./states.js";
import type { StateReading, SwitchStep } from "./switchTypes.js";

/** A state to render: by its id, or with one box's branch muted as the cure has it. */
export interface Rendition {
  readonly state: string;
  /** Place of the switch whose box mutes instead of passing its input; null as the rig has it. */
  readonly muted: number | null;
  readonly wiring: Wiring;
}

/** Everything that one routing needs rendered: its states, and cures that change the sound when off. */
export function renditionsOf(wiring: Wiring, states: readonly SwitchState[]): readonly Rendition[] {
  const switches = footswitchesOf(wiring).map(({ box }) => ({ box, around: surroundingsAt(box, wiring) }));
  return states.flatMap(({ id }) => [
    { state: id, muted: null, wiring: inState(wiring, id) },
    ...switches.flatMap(({ box, around }, place) =>
      !isOn(id, place) && canSendDry(around)
        ? [{ state: id, muted: place, wiring: withBoxMuting(inState(wiring, id), box.id) }]
        : [],
    ),
  ]);
}

/** What a state is by its wiring alone, beside its levels. */
export function readingOf(state: SwitchState, wiring: Wiring, levels: StateLevels): StateReading {
  const now = inState(wiring, state.id);
  const [left, right] = dryPaths(now).map((paths) => {
    const main = strongest(paths);
    return main === null ? null : main.gain < 0 ? -1 : 1;
  });
  return { ...state, ...levels, comb: combOf(now), sideDelayMs: sideDelayMs(now), polarity: [left, right] };
}

/** Every press among `states` that turns one switch off. */
export function pressesOf(
  wiring: Wiring,
  states: readonly StateReading[],
  mutedLufs: (state: string, place: number) => number | null,
): readonly SwitchStep[] {
  const byId = new Map(states.map((state) => [state.id, state]));
  const switches = footswitchesOf(wiring);
  return switches.flatMap(({ box, label }, place) => {
    const around = surroundingsAt(box, wiring);
    const partner = switches.findIndex((other) => other.label === around?.partner);
    return states.flatMap((from): SwitchStep[] => {
      const to = byId.get(idWithOff(from.id, place));
      if (!isOn(from.id, place) || !to) return [];
      const sendsDry = canSendDry(around) && dryGain(wiring, to.id) > 1.05 * dryGain(wiring, from.id);
      const both = partner >= 0 && isOn(from.id, partner) ? byId.get(idWithOff(to.id, partner)) : undefined;
      const bothJumpLu = change(from.integratedLufs, both?.integratedLufs ?? null);
      const mutedJumpLu = sendsDry ? change(from.integratedLufs, mutedLufs(to.id, place)) : null;
      return [
        {
          pedal: label,
          from: from.id,
          to: to.id,
          levelJumpLu: change(from.integratedLufs, to.integratedLufs),
          sideShareChange: change(from.sideShare, to.sideShare),
          correlationChange: change(from.correlation, to.correlation),
          flags: flagsOf({ around, from, to, sendsDry, mutedJumpLu, bothJumpLu }),
        },
      ];
    });
  });
}

/** True for a box in a return's branch that passes its input when off. */
const canSendDry = (around: Surroundings | null): boolean =>
  around !== null && around.returnTo !== null && around.box.pedal.whenOff !== "muted";

/** Null for the box of a mute. */
const surroundingsAt = (box: Box, wiring: Wiring): Surroundings | null =>
  box.kind === "pedal" ? surroundingsOf(box, wiring) : null;

/** All ways of the dry sound to the buses together, without regard to delay. */
const dryGain = (wiring: Wiring, id: string): number =>
  dryPaths(inState(wiring, id))
    .flat()
    .reduce((sum, { gain }) => sum + Math.abs(gain), 0);

const withBoxMuting = (wiring: Wiring, id: string): Wiring => ({
  cables: wiring.cables,
  boxes: wiring.boxes.map((box) =>
    box.kind === "pedal" && box.id === id ? { ...box, pedal: { ...box.pedal, whenOff: "muted" } } : box,
  ),
});
