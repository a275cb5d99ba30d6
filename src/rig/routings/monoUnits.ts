import type { SettingValue } from "../../sound/dsp/kernel.js";
import { gainToDb, powerToDb } from "../../sound/dsp/units.js";
import { mixerBounds } from "../model/bounds.js";
import type { Pedal, Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";

type Differences = Rig["stereoUnit"];

const changed = (pedal: Pedal, differences: Differences): Readonly<Record<string, SettingValue>> => ({
  ...pedal.settings,
  ...differences["*"],
  ...differences[pedal.name],
});

/** The stereo unit of the same kind that would stand in the mono unit's place. Its price and supply are not known. */
export function stereoTwin(pedal: Pedal, rig: Rig): Pedal {
  return {
    ...pedal,
    name: `Stereo ${pedal.name}`,
    jacks: "stereo",
    settings: changed(pedal, rig.stereoUnit),
    price: null,
    supply: null,
    size: null,
  };
}

/** The second of two units, with its own knobs where the rig says how they differ. */
export function secondUnit(pedal: Pedal, rig: Rig): Pedal {
  return { ...pedal, settings: changed(pedal, rig.secondUnit) };
}

/**
 * Gain of a parallel unit's return. As the rig says; else the gain at which wet to dry on each side is about what the
 * unit's own mix gives in line: mix / (1 - mix), unity for a unit without a mix, times what the pedals on the way
 * `beside` it leave of a signal. The return's pan takes 3.01 dB at the centre, which is given back here. Within
 * what a mixer has, in steps of 0.1 dB: nobody sets one finer.
 */
export function returnGainDb(pedal: Pedal, rig: Rig, beside: readonly Pedal[]): number {
  if (rig.mixer.returnDb !== null) return rig.mixer.returnDb;
  const { mix } = pedal.settings;
  const inLine = modelOf(pedal.model).additive && typeof mix === "number" ? gainToDb(mix / (1 - mix)) : 0;
  const gainDb = inLine + passingDb(beside) + 10 * Math.log10(2) + rig.mixer.dryDb;
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

/** "reverb", "delay and reverb", "two reverbs": the units in words, one word a kind. */
export function unitWords(units: readonly Pedal[]): string {
  const kinds = [...kindCounts(units)].map(([model, count]) =>
    count === 1 ? modelOf(model).kind.toLowerCase() : `${count} ${modelOf(model).plural}`,
  );
  return listWords(kinds);
}

/** "Two reverbs", "Two delays and two reverbs": two of every unit. */
export function twoOfEach(units: readonly Pedal[]): string {
  const kinds = [...kindCounts(units)].map(
    ([model, count]) => `${count === 1 ? "two" : 2 * count} ${modelOf(model).plural}`,
  );
  return capital(listWords(kinds));
}

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** "a", "a and b", "a, b and c". */
function listWords(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** Counts by kind, so that a plate and a hall are "2 reverbs"; keyed by the first model of the kind. */
function kindCounts(units: readonly Pedal[]): Map<string, number> {
  const firstModel = new Map<string, string>();
  const counts = new Map<string, number>();
  for (const { model } of units) {
    const key = firstModel.get(modelOf(model).kind) ?? model;
    firstModel.set(modelOf(model).kind, key);
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return counts;
}
