import { andList } from "../../text/words.js";
import type { Pedal } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import { leakDbOf } from "./blend.js";

/** What a unit gives beside the dry sound, at its wettest: "fully wet", "wet with dry at -12 dB", "with its whole sound". */
export function wetWords(pedal: Pedal): string {
  if (!modelOf(pedal.model).additive) return "with its whole sound";
  return pedal.canGoFullyWet ? "fully wet" : `wet with dry at ${leakDbOf(pedal)} dB`;
}

/** The same of several; names stand behind where they differ. */
export function allWetWords(pedals: readonly Pedal[]): string {
  const words = [...new Set(pedals.map(wetWords))];
  if (words.length < 2) return words[0] ?? "fully wet";
  const namesOf = (word: string) =>
    pedals.filter((pedal) => wetWords(pedal) === word).map(({ name }) => name);
  return andList(words.map((word) => `${word} (${andList(namesOf(word))})`));
}
