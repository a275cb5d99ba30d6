import { capital } from "../../text/words.js";
import type { Pedal } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";

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
