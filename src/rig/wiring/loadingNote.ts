import { trimmed } from "../../text/numbers.js";
import { andList } from "../../text/words.js";
import type { Rig } from "../model/rig.js";
import { recordedInto, whyLoadingIsNotHeard } from "./loading.js";
import { netsOf } from "./nets.js";
import { boughtAs, isBoxPart } from "./soldBoxes.js";
import type { Box, Wiring } from "./wiring.js";

/** Whether loading is in the sound of these wirings, against what, and what is assumed for it: one or two sentences. */
export function loadingNote(rig: Rig, wirings: readonly Wiring[]): string {
  const why = whyLoadingIsNotHeard(rig);
  if (why === "asked") return "Loading is left out of the sound, as asked.";
  if (why === "no-circuit")
    return "Loading is not in the sound: the rig does not give the instrument's circuit (instrument: outputOhms and henries, 0 for no coil).";
  const { ohms, picofarads } = recordedInto(rig);
  const { takeInto } = rig;
  const isAssumed = takeInto.ohms === null || takeInto.picofarads === null;
  const assumed = isAssumed ? " (assumed; take: { file, into: { ohms, picofarads } } tells)" : "";
  const load = `${ohmsWords(ohms)} and ${trimmed(picofarads, 0)} pF${assumed}`;
  return [
    `Loading is in the sound: the instrument with what hangs on it, against a take recorded into ${load}, and what boxes take of each other's level where their impedances are given.`,
    ...unknownInputs(rig, wirings),
  ].join(" ");
}

/** Inputs straight behind the instrument of which the rig tells nothing. */
function unknownInputs(rig: Rig, wirings: readonly Wiring[]): readonly string[] {
  const labels = wirings.flatMap((wiring) =>
    netsOf(wiring, rig.cables)
      .filter(({ from }) => from.box.kind === "take")
      .flatMap(({ to }) => to.filter(({ box }) => inputOhmsOf(box, wiring, rig) === null))
      .map(({ box }) => box.label),
  );
  const unknown = [...new Set(labels)];
  if (unknown.length === 0) return [];
  return [`Taken as 1 megohm, for the rig gives no inputOhms: ${andList(unknown)}.`];
}

function inputOhmsOf(box: Box, wiring: Wiring, rig: Rig): number | null {
  if (box.kind === "pedal") return box.pedal.inputOhms;
  if (box.kind === "destination") return rig.destination.inputOhms;
  return isBoxPart(box) ? (boughtAs(box, wiring, rig)?.inputOhms ?? null) : null;
}

/** `1 megohm`, `47 kilohms`. */
function ohmsWords(ohms: number): string {
  if (ohms === 1e6) return "1 megohm";
  if (ohms > 1e6) return `${trimmed(ohms / 1e6, 2)} megohms`;
  return ohms >= 1000 ? `${trimmed(ohms / 1000, 1)} kilohms` : `${trimmed(ohms, 0)} ohms`;
}
