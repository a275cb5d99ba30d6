import { dbToGain } from "../../sound/dsp/units.js";
import { modelOf } from "../pedals/models.js";
import type { Blend } from "../pedals/pedalModel.js";
import type { PedalBox } from "./wiring.js";

/** Dry and wet gains of a pedal as it runs here. Fully wet: its mix at 1, and the dry leak that it cannot kill. */
export function blendOf(box: PedalBox): Blend {
  const { model: word, settings, canGoFullyWet, dryLeakDb } = box.pedal;
  const model = modelOf(word);
  const run = box.fullyWet && model.additive ? { ...settings, mix: 1 } : settings;
  const { dry, wet } = model.blend(run, box.outputs);
  const leak = box.fullyWet && !canGoFullyWet ? dbToGain(dryLeakDb) : 0;
  return {
    dry: leak > 0 ? dry.map((gain) => (gain === 0 ? leak : gain)) : dry,
    wet: box.wetMuted ? wet.map(() => 0) : wet,
  };
}
