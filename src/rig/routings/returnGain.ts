import { gainToDb, powerToDb } from "../../sound/dsp/units.js";
import { mixerBounds } from "../model/bounds.js";
import type { Pedal, Rig } from "../model/rig.js";
import { mixedBlend } from "../wiring/blend.js";

/**
 * Gain of a parallel unit's return. As the rig says; else the gain at which wet to dry on each side is about what the
 * unit's own mix gives in line, wet over dry, unity for a unit without a mix or without a dry sound, times what the
 * pedals on the way beside it leave of a signal, and `trimDb` where it was measured. The return's pan takes 3.01 dB at the centre, which is given back here. Within
 * a mixer's bounds, in steps of 0.1 dB: nobody sets a mixer finer.
 */
export function returnGainDb(pedal: Pedal, rig: Rig, beside: readonly Pedal[], trimDb = 0): number {
  if (rig.mixer.returnDb !== null) return rig.mixer.returnDb;
  const { dry, wet } = mixedBlend(pedal, 1);
  const inLine = dry[0] > 0 && wet[0] > 0 ? gainToDb(wet[0] / dry[0]) : 0;
  const gainDb = inLine + passingDb(beside) + 10 * Math.log10(2) + rig.mixer.dryDb + trimDb;
  const { min, max } = mixerBounds.gainDb;
  return Math.max(min, Math.min(max, Math.round(gainDb * 10) / 10));
}

/** Level that pedals leave of a signal when dry and wet are unrelated and alike in level: 10 log10(dry^2 + wet^2) each. */
function passingDb(pedals: readonly Pedal[]): number {
  return pedals.reduce((sum, pedal) => {
    const { dry, wet } = mixedBlend(pedal, 2);
    const power = [...dry, ...wet].reduce((total, gain) => total + gain ** 2, 0) / dry.length;
    return sum + powerToDb(power) + pedal.levelDb;
  }, 0);
}
