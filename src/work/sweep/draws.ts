import { chainOf } from "../../rig/model/chain.js";
import type { Pedal, Rig } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { NumberSetting, SettingValue } from "../../sound/dsp/kernel.js";
import { Xorshift } from "../../sound/dsp/xorshift.js";

/** Draws lie this far apart among the seeds: neighbouring sweeps share no draw. */
const drawsPerSeed = 1009;

/**
 * The rig with second units whose number settings are off by chance: evenly within `percent` of where they are, or of
 * half the range for settings that can be negative; whole numbers, words and switches stay. A draw is a pair of units:
 * what it is off by stays the same, in proportion, wherever the knobs are set.
 */
export function drawnSecondUnits(
  rig: Rig,
  { percent, seed, draw }: { percent: number; seed: number; draw: number },
): Rig {
  const numbers = new Xorshift(seed * drawsPerSeed + draw);
  const secondUnit: Record<string, Readonly<Record<string, SettingValue>>> = { ...rig.secondUnit };
  for (const unit of chainOf(rig).units) {
    secondUnit[unit.name] = drawn(unit, rig, () => (2 * percent * numbers.next()) / 100);
  }
  return { ...rig, secondUnit };
}

function drawn(unit: Pedal, rig: Rig, off: () => number): Readonly<Record<string, SettingValue>> {
  const set: Readonly<Record<string, SettingValue>> = {
    ...unit.settings,
    ...rig.secondUnit["*"],
    ...rig.secondUnit[unit.name],
  };
  const table = modelOf(unit.model).settings;
  const changed = Object.entries(table).flatMap(([key, setting]): [string, SettingValue][] => {
    const value = set[key];
    if (!("min" in setting) || setting.whole || typeof value !== "number") return [];
    return [[key, within(setting, value + off() * scaleOf(setting, value))]];
  });
  return { ...rig.secondUnit[unit.name], ...Object.fromEntries(changed) };
}

const scaleOf = ({ min, max }: NumberSetting, value: number): number => (min < 0 ? (max - min) / 2 : value);
const within = ({ min, max }: NumberSetting, value: number): number => Math.min(max, Math.max(min, value));
