import { type Footswitch, footswitchesOf } from "../../rig/wiring/footswitches.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import { nearest } from "../../text/nearest.js";
import { UserError } from "../../text/userError.js";
import { allStates, mostSwitchesForAll, type SwitchState, withNeighbours } from "./states.js";

/**
 * Which states are looked at. `usual`: all up to six switches, beyond that as `each`. `each`: everything on, everything
 * off, and one press from there. A list: those states, each told by the pedals that are off, and one press from there.
 */
export type StateChoice = "usual" | "all" | "each" | readonly (readonly string[])[];

/** Beyond this, all states would be too many to read. */
const mostSwitches = 10;

/**
 * The states of one wiring's switches.
 * @throws UserError when all states are asked for and there are too many
 */
export function chooseStates(wiring: Wiring, choice: StateChoice): readonly SwitchState[] {
  const switches = footswitchesOf(wiring);
  if (choice === "all" && switches.length > mostSwitches) {
    throw new UserError(
      `this rig has ${switches.length} footswitches in a routing, so ${2 ** switches.length} states; all of them are looked at up to ${mostSwitches}. Use --states each, or name states: --states "Pedal+Other,none".`,
    );
  }
  if (choice === "all" || (choice === "usual" && switches.length <= mostSwitchesForAll)) {
    return allStates(switches);
  }
  if (choice === "usual" || choice === "each") {
    return withNeighbours(switches, [new Set(), new Set(switches.keys())]);
  }
  return withNeighbours(
    switches,
    choice.map(
      (words) =>
        new Set(switches.flatMap((box, n) => (words.some((word) => answersTo(box, word)) ? [n] : []))),
    ),
  );
}

/**
 * True for the switch of that label, every box of that pedal, and every box of that model; "mute" is every mute. Capitals
 * do not count.
 */
export function answersTo({ label, box }: Pick<Footswitch, "label" | "box">, word: string): boolean {
  const said = word.trim().toLowerCase();
  const names = box.kind === "pedal" ? [label, box.pedal.name, box.pedal.model] : [label, "mute"];
  return names.map((name) => name.toLowerCase()).some((name) => name === said || name === `stereo ${said}`);
}

/**
 * Sees to it that a word means a footswitch of some wiring.
 * @throws UserError telling the words that there are
 */
export function checkSwitchWord(word: string, wirings: readonly Wiring[]): void {
  const switches = wirings.flatMap(footswitchesOf);
  if (switches.some((each) => answersTo(each, word))) return;
  const pedals = wirings.flatMap(({ boxes }) => boxes.filter((box) => box.kind === "pedal"));
  if (pedals.some((box) => answersTo({ label: box.label, box }, word))) {
    throw new UserError(`"${word}" has no footswitch (hasFootswitch: false in the rig); it is always on.`);
  }
  const names = [
    ...new Set(switches.map(({ box, label }) => (box.kind === "pedal" ? box.pedal.name : label))),
  ];
  const near = nearest(word, names);
  throw new UserError(
    `"${word}" is no footswitch of this rig${near ? `; did you mean "${near}"?` : "."} There are ${names.join(", ") || "none"}.`,
  );
}
