import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Pedal, Rig } from "../model/rig.js";
import { freeName, namesTaken } from "./boxNames.js";

/** Settings with what the rig says of another unit: of all (those that this model has), then of this pedal. */
function changed(pedal: Pedal, differences: Rig["secondUnit"]): Readonly<Record<string, SettingValue>> {
  const ofAll = Object.entries(differences["*"] ?? {}).filter(([key]) => key in pedal.settings);
  return { ...pedal.settings, ...Object.fromEntries(ofAll), ...differences[pedal.name] };
}

/**
 * The stereo unit that stands in a mono unit's place: the first stereo one among its alternatives, else one of the same
 * kind, whose price and supply are not known.
 */
export const stereoTwin = (pedal: Pedal, rig: Rig): Pedal =>
  pedal.alternatives.find(({ jacks }) => jacks === "stereo") ?? sameInStereo(pedal, rig);

/** A mono unit with stereo jacks; its price and supply are not known. */
export const sameInStereo = (pedal: Pedal, rig: Rig): Pedal => ({
  ...pedal,
  name: freeName(`Stereo ${pedal.name}`, namesTaken(rig.pedals)),
  jacks: "stereo",
  settings: changed(pedal, rig.stereoUnit),
  price: null,
  supply: null,
  size: null,
  alternatives: [],
});

/** The second of two units, with its own knobs where the rig says how they differ. */
export const secondUnit = (pedal: Pedal, rig: Rig): Pedal => ({
  ...pedal,
  settings: changed(pedal, rig.secondUnit),
});
