import { gainToDb, powerToDb } from "../../sound/dsp/units.js";
import type { Pedal, Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";

/**
 * Gain of a parallel unit's return. As the rig says; else the gain at which wet to dry on each side is about what the
 * unit's own mix gives in line: mix / (1 - mix), unity for a unit without a mix, times what the pedals on the way
 * beside it leave of a signal. The return's pan takes 3.01 dB at the centre, which is given back here. Bounded to
 * -60..+12 dB, in steps of 0.1 dB: nobody sets a mixer finer.
 */
export function returnGainDb(pedal: Pedal, rig: Rig, beside: readonly Pedal[]): number {
  if (rig.mixer.returnDb !== null) return rig.mixer.returnDb;
  const { mix } = pedal.settings;
  const inLine = modelOf(pedal.model).additive && typeof mix === "number" ? gainToDb(mix / (1 - mix)) : 0;
  const gainDb = inLine + passingDb(beside) + 10 * Math.log10(2) + rig.mixer.dryDb;
  return Math.max(-60, Math.min(12, Math.round(gainDb * 10) / 10));
}

/** Level that pedals leave of a signal when dry and wet are unrelated and alike in level: 10 log10(dry^2 + wet^2) each. */
function passingDb(pedals: readonly Pedal[]): number {
  return pedals.reduce((sum, { model, settings, levelDb }) => {
    const { dry, wet } = modelOf(model).blend(settings, 2);
    const power = [...dry, ...wet].reduce((total, gain) => total + gain ** 2, 0) / dry.length;
    return sum + powerToDb(power) + levelDb;
  }, 0);
}
