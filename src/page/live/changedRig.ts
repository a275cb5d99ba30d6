import { knobsOf } from "../../rig/knobs/knobs.js";
import type { Pedal, Rig } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { Setting, SettingValue } from "../../sound/dsp/kernel.js";

/** What of a pedal can be turned besides its settings. */
export type UnitChange = Partial<
  Pick<Pedal, "latencyMs" | "levelDb" | "invertsPolarity" | "canGoFullyWet" | "dryLeakDb">
>;

/** The rig with one setting of one pedal changed. @throws RangeError when there is no such setting, or it is out of bounds */
export function withSetting(rig: Rig, name: string, key: string, value: SettingValue): Rig {
  return withPedal(rig, name, (pedal) => {
    const setting = modelOf(pedal.model).settings[key];
    if (!setting || !allows(setting, value)) {
      throw new RangeError(`${name}: ${key} cannot be ${JSON.stringify(value)}`);
    }
    return { ...pedal, settings: { ...pedal.settings, [key]: value } };
  });
}

/** The rig with one pedal's latency, trim, polarity or leak changed. @throws RangeError when there is no such pedal */
export function withUnit(rig: Rig, name: string, change: UnitChange): Rig {
  return withPedal(rig, name, (pedal) => ({ ...pedal, ...change }));
}

export const withMixer = (rig: Rig, change: Partial<Rig["mixer"]>): Rig => ({
  ...rig,
  mixer: { ...rig.mixer, ...change },
});

/** The rig with knobs turned as a sweep turns them, in the order of the rig. @throws RangeError when it has no such knob */
export function withKnobs(rig: Rig, settings: Readonly<Record<string, SettingValue>>): Rig {
  const knobs = knobsOf(rig).filter(({ path }) => path in settings);
  const missing = Object.keys(settings).find((path) => !knobs.some((knob) => knob.path === path));
  if (missing !== undefined) throw new RangeError(`no knob "${missing}" on this rig`);
  return knobs.reduce((turned, { path, turn }) => turn(turned, settings[path]), rig);
}

function withPedal(rig: Rig, name: string, change: (pedal: Pedal) => Pedal): Rig {
  if (!rig.pedals.some((pedal) => pedal.name === name))
    throw new RangeError(`no pedal "${name}" in this rig`);
  return { ...rig, pedals: rig.pedals.map((pedal) => (pedal.name === name ? change(pedal) : pedal)) };
}

function allows(setting: Setting, value: SettingValue): boolean {
  if ("choices" in setting) return typeof value === "string" && setting.choices.includes(value);
  if ("min" in setting) {
    const inBounds = typeof value === "number" && value >= setting.min && value <= setting.max;
    return inBounds && (!setting.whole || Number.isInteger(value));
  }
  return typeof value === typeof setting.default;
}
