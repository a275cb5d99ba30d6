import { trimmed } from "../../text/numbers.js";
import { andList } from "../../text/words.js";
import { pickupKinds } from "../model/pickupKinds.js";
import type { Instrument, Rig } from "../model/rig.js";
import { recordedInto, whyLoadingIsNotHeard } from "./loading.js";
import { netsOf } from "./nets.js";
import { boughtAs, isBoxPart } from "./soldBoxes.js";
import type { Box, Wiring } from "./wiring.js";

/** Whether loading is in the sound of these wirings, against what, and what is assumed for it: one or two sentences. */
export function loadingNote(rig: Rig, wirings: readonly Wiring[]): string {
  const why = whyLoadingIsNotHeard(rig);
  if (why === "asked") return "Loading is left out of the sound, as asked.";
  if (why === "no-circuit")
    return "Loading is not in the sound: the rig does not give the instrument's circuit (instrument: pickup; or outputOhms and henries, 0 for no coil).";
  const { ohms, picofarads } = recordedInto(rig);
  const { takeInto } = rig;
  const isAssumed = takeInto.ohms === null || takeInto.picofarads === null;
  const assumed = isAssumed ? " (assumed; take: { file, into: { ohms, picofarads } } tells)" : "";
  const load = `${ohmsWords(ohms)} and ${trimmed(picofarads, 0)} pF${assumed}`;
  return [
    `Loading is in the sound: the instrument with what hangs on it, against a take recorded into ${load}, and what boxes take of each other's level where their impedances are given.`,
    ...usualCoil(rig.instrument),
    ...unknownInputs(rig, wirings),
  ].join(" ");
}

/** Where a kind of pickup stands for the values of this one. */
export function usualCoil({ pickup, outputOhms, henries, picofarads }: Instrument): readonly string[] {
  if (pickup === null) return [];
  const usual = pickupKinds[pickup];
  const taken = [
    ...(outputOhms === usual.outputOhms ? [ohmsWords(usual.outputOhms)] : []),
    ...(henries === usual.henries ? [`${trimmed(usual.henries, 1)} H`] : []),
    ...(picofarads === usual.picofarads ? [`${trimmed(usual.picofarads, 0)} pF`] : []),
  ];
  if (taken.length === 0) return [];
  return [
    `Of the pickup ${andList(taken)} ${taken.length > 1 ? "are" : "is"} usual for its kind (${pickup}), not measured: a third more or less is common.`,
  ];
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
