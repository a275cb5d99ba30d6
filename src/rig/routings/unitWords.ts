import { andList, capital } from "../../text/words.js";
import type { Pedal } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";

/** "reverb", "delay and reverb", "two reverbs": the units in words, one word a kind; of none, "mono unit". */
export function unitWords(units: readonly Pedal[]): string {
  const kinds = [...kindCounts(units)].map(([model, count]) =>
    count === 1 ? modelOf(model).kind.toLowerCase() : `${numberWord(count)} ${modelOf(model).plural}`,
  );
  return andList(kinds) || "mono unit";
}

/** True where a kind comes up more than once. */
export const areSeveralOfAKind = (units: readonly Pedal[]): boolean =>
  [...kindCounts(units).values()].some((count) => count > 1);

/** "Two reverbs", "Two delays and two reverbs": two of every unit. */
export function twoOfEach(units: readonly Pedal[]): string {
  const kinds = [...kindCounts(units)].map(
    ([model, count]) => `${numberWord(2 * count)} ${modelOf(model).plural}`,
  );
  return capital(andList(kinds) || "two mono units");
}

const words = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];
const numberWord = (count: number): string => words[count] ?? String(count);

/** Counts by kind, so that a plate and a hall are "two reverbs"; keyed by the first model of the kind. */
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
