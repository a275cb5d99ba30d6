import type { RigEdit } from "./editRig.js";
import { readYaml } from "./yaml.js";

/** What a captured response says of a unit, in the order of its lines. */
const capturedKeys = [
  "model",
  "jacks",
  "latencyMs",
  "invertsPolarity",
  "levelDb",
  "dryPath",
  "canGoFullyWet",
  "dryLeakDb",
] as const;

/**
 * Puts the lines of a captured unit in the place of what a pedal said. What they do not say of polarity, level and dry
 * sound goes, since the response holds it; the mix that the pedal is played with stays where they name none.
 *
 * @param data         plain data of the rig file
 * @param name         of the pedal
 * @param lines        of the capture
 * @param keepsLatency where they name none: what the pedal said stays, since the time ahead of the first sound is not in the
 *   response
 * @returns none when there is no such pedal
 */
export function capturedEdits(
  data: unknown,
  name: string,
  lines: readonly string[],
  keepsLatency: boolean,
): readonly RigEdit[] {
  const pedals = isMap(data) && Array.isArray(data.pedals) ? data.pedals : [];
  const index = pedals.findIndex((pedal: unknown) => isMap(pedal) && pedal.name === name);
  const said = readYaml(lines.join("\n"), "the captured unit").value;
  if (index < 0 || !isMap(said)) return [];
  const path = ["pedals", index];
  const keys = capturedKeys.filter((key) => !(key === "latencyMs" && keepsLatency && !(key in said)));
  const mix = playedMix(pedals[index]);
  const settings = isMap(said.settings) ? said.settings : {};
  return [
    ...keys.map((key): RigEdit => ({ set: [...path, key], to: said[key] })),
    {
      set: [...path, "settings"],
      to: "mix" in settings || mix === undefined ? settings : { ...settings, mix },
    },
  ];
}

function playedMix(pedal: unknown): unknown {
  const settings = isMap(pedal) ? pedal.settings : undefined;
  return isMap(settings) && typeof settings.mix === "number" ? settings.mix : undefined;
}

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
