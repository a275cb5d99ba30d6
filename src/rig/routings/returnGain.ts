import { gainToDb, powerToDb } from "../../sound/dsp/units.js";
import { mixerBounds } from "../model/bounds.js";
import type { Pedal, Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";

/**
 * Gain of a parallel unit's return. As the rig says; else the gain at which wet to dry on each side is about what the
 * unit's own mix gives in line: mix / (1 - mix), unity for a unit without a mix, or without a dry sound at mix 1, times what the pedals on the way
 * beside it leave of a signal, and `trimDb` where it was measured. The return's pan takes 3.01 dB at the centre, which is given back here. Within
 * a mixer's bounds, in steps of 0.1 dB: nobody sets a mixer finer.
 */
export function returnGainDb(pedal: Pedal, rig: Rig, beside: readonly Pedal[], trimDb = 0): number {
  if (rig.mixer.returnDb !== null) return rig.mixer.returnDb;
  const { mix } = pedal.settings;
  const hasDry = modelOf(pedal.model).additive && typeof mix === "number" && mix < 1;
  const inLine = hasDry ? gainToDb(mix / (1 - mix)) : 0;
  const gainDb = inLine + passingDb(beside) + 10 * Math.log10(2) + rig.mixer.dryDb + trimDb;
  const { min, max } = mixerBounds.gainDb;
  return Math.max(min, Math.min(max, Math.round(gainDb * 10) / 10));
}

/** Level that pedals leave of a signal when dry and wet are unrelated and alike in level: 10 log10(dry^2 + wet^2) each. */
function passingDb(pedals: readonly Pedal[]): number {
  return pedals.reduce((sum, { model, settings, levelDb }) => {
    const { dry, wet } = modelOf(model).blend(settings, 2);
    const power = [...dry, ...wet].reduce((total, gain) => total + gain ** 2, 0) / dry.length;
    return sum + powerToDb(power) + levelDb;
  }, 0);
}
