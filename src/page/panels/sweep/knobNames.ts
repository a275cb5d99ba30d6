import type { SettingValue } from "../../../sound/dsp/kernel.js";
import { trimmed } from "../../../text/numbers.js";
import type { PageSweep } from "../../../work/sweep/pageSweep.js";
import { settingName } from "../../widgets/settingName.js";
import { trueMinus } from "../../widgets/typeset.js";
import type { SweepPoint } from "./sweepPoints.js";

/** "mixer return"; "Boiler tank mix". */
export function knobName(path: string): { readonly name: string; readonly unit: string } {
  const dot = path.lastIndexOf(".");
  const { name, unit } = settingName(path.slice(dot + 1));
  return { name: `${path.slice(0, dot)} ${name}`, unit };
}

/** "mixer return (dB), mixer return pan": knobs that step together; the first one's values stand at the axis. */
export const groupTitle = ({ vary }: PageSweep, group: number): string =>
  vary[group].map(({ path }) => knobTitle(path)).join(", ");

/** The value of a group's first knob at a step. */
export const stepText = ({ vary }: PageSweep, group: number, step: number): string =>
  valueText(vary[group][0].values[step]);

/** "mixer return (dB)". */
export function knobTitle(path: string): string {
  const { name, unit } = knobName(path);
  return unit === "" ? name : `${name} (${unit})`;
}

export const valueText = (value: SettingValue): string =>
  typeof value === "number" ? trueMinus(trimmed(value, 3)) : String(value);

/** "mixer return −12 dB, mixer return pan 0". */
export function settingsWords({ settings }: SweepPoint): string {
  return Object.entries(settings)
    .map(([path, value]) => {
      const { name, unit } = knobName(path);
      return `${name} ${valueText(value)}${unit === "" ? "" : `\u00a0${unit}`}`;
    })
    .join(", ");
}
