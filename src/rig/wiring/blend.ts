import { dbToGain } from "../../sound/dsp/units.js";
import { pedalModels } from "../pedals/models.js";
import type { Blend, PedalModel } from "../pedals/pedalModel.js";
import type { PedalBox } from "./wiring.js";

/** The model of a pedal box. @throws Error when there is none of that word: a rig reader lets no such pedal in */
export function modelOf(box: PedalBox): PedalModel {
  const model = pedalModels[box.pedal.model];
  if (!model) throw new Error(`no model "${box.pedal.model}"`);
  return model;
}

/** Dry and wet gains of a pedal as it runs here. Fully wet: its mix at 1, and the dry leak that it cannot kill. */
export function blendOf(box: PedalBox): Blend {
  const { settings, canGoFullyWet, dryLeakDb } = box.pedal;
  const run = box.fullyWet && "mix" in settings ? { ...settings, mix: 1 } : settings;
  const { dry, wet } = modelOf(box).blend(run, box.outputs);
  const leak = box.fullyWet && !canGoFullyWet ? dbToGain(dryLeakDb) : 0;
  return {
    dry: leak > 0 ? dry.map((gain) => (gain === 0 ? leak : gain)) : dry,
    wet: box.wetMuted ? wet.map(() => 0) : wet,
  };
}
