import { dryId } from "../../rig/wiring/dryWiring.js";

/** The key of a choice: 1 to 9 for routings, 0 for the dry take; null from the tenth routing on. */
export function choiceKey(choices: readonly string[], id: string): string | null {
  if (id === dryId) return "0";
  const number = choices.indexOf(id) + 1;
  return number >= 1 && number <= 9 ? String(number) : null;
}
