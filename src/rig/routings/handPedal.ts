import type { HandBox, Pedal, Rig } from "../model/rig.js";
import { sameInStereo } from "./otherUnits.js";

export type HandPedalBox = Extract<HandBox, { readonly box: "pedal" }>;

/** What a pedal's box in a hand-drawn wiring holds. */
export interface HandPedal {
  readonly pedal: Pedal;
  /** The pedal of the rig that it is, or stands in for. */
  readonly standsFor: Pedal;
}

/** The pedal that a box names: the rig's, another for its place, or a stereo one of its kind; null where there is none. */
export function handPedalOf(
  rig: Rig,
  { pedal: name, stereo, settings }: Pick<HandPedalBox, "pedal" | "stereo" | "settings">,
): HandPedal | null {
  for (const standsFor of rig.pedals) {
    const named = [standsFor, ...standsFor.alternatives].find((pedal) => pedal.name === name);
    if (!named) continue;
    const meant = stereo ? sameInStereo(named, rig) : named;
    return { standsFor, pedal: { ...meant, settings: { ...meant.settings, ...settings } } };
  }
  return null;
}
