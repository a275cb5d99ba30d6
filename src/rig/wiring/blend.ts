import { dbToGain } from "../../sound/dsp/units.js";
import type { Pedal } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import type { Blend } from "../pedals/pedalModel.js";
import type { PedalBox } from "./wiring.js";

/**
 * Dry and wet gains of a pedal as it stands here, output trim and polarity in them. On and fully wet: its mix at 1, and
 * the dry leak that it cannot kill. Off: what arrives passes as it is, or nothing does.
 */
export function blendOf(box: PedalBox): Blend {
  const { outputs, pedal, on, wetMuted } = box;
  const none = Array<number>(outputs).fill(0);
  if (!on) return { dry: pedal.whenOff === "muted" ? none : none.map(() => 1), wet: none };
  const trim = dbToGain(pedal.levelDb) * (pedal.invertsPolarity ? -1 : 1);
  const { dry, wet } = playedBlend(box);
  return { dry: dry.map((gain) => trim * gain), wet: wetMuted ? none : wet.map((gain) => trim * gain) };
}

/** Delay of everything that passes a pedal as it stands here: its converters, unless it is off and not buffered. */
export const delayMsOf = ({ on, pedal }: PedalBox): number =>
  on || pedal.whenOff === "buffered" ? pedal.latencyMs : 0;

/** As a pedal is set: its dry sound makes room for the effect, or stays at unity as many pedals keep it. */
export function mixedBlend({ model, settings, dryPath }: Pedal, outputs: 1 | 2): Blend {
  const { additive, blend } = modelOf(model);
  const { dry, wet } = blend(settings, outputs);
  return { dry: additive && dryPath === "unity" ? blend({ ...settings, mix: 0 }, outputs).dry : dry, wet };
}

/** Dry sound that stays in a unit which cannot go fully wet, at its wettest. */
export const leakDbOf = ({ dryPath, dryLeakDb }: Pedal): number => (dryPath === "unity" ? 0 : dryLeakDb);

function fullyWetBlend({ model, settings }: Pedal, outputs: 1 | 2): Blend {
  const { additive, blend } = modelOf(model);
  return blend(additive ? { ...settings, mix: 1 } : settings, outputs);
}

function playedBlend({ outputs, fullyWet, pedal }: PedalBox): Blend {
  const { dry, wet } = fullyWet ? fullyWetBlend(pedal, outputs) : mixedBlend(pedal, outputs);
  const leak = fullyWet && !pedal.canGoFullyWet ? dbToGain(leakDbOf(pedal)) : 0;
  return { dry: leak > 0 ? dry.map((gain) => (gain === 0 ? leak : gain)) : dry, wet };
}
