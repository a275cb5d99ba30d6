import { InvalidArgumentError } from "commander";
import type { PressWord } from "../node/switches/writePresses.js";
import type { StateChoice } from "../work/switches/chooseStates.js";

/** `all`, `each`, or states with commas between them, each the pedals that are off joined by "+"; `none` is all on. */
export function statesWord(text: string): StateChoice {
  const words = text.split(",").map((word) => word.trim());
  if (words.length === 1 && (words[0] === "all" || words[0] === "each")) return words[0];
  const states = words.map((word) => (word === "none" ? [] : word.split("+").map((name) => name.trim())));
  if (states.flat().every((name) => name !== "")) return states;
  throw new InvalidArgumentError(
    'Write all, each, or the pedals that are off, as in "Chorus,Chorus+Delay,none".',
  );
}

/** `chorus:off`: what is pressed, and to what. */
export function pressWord(text: string): PressWord {
  const at = text.lastIndexOf(":");
  const word = text.slice(0, at).trim();
  const to = text
    .slice(at + 1)
    .trim()
    .toLowerCase();
  if (at > 0 && word !== "" && (to === "on" || to === "off")) return { word, to };
  throw new InvalidArgumentError("Write a pedal, a colon, and on or off, as in chorus:off.");
}
