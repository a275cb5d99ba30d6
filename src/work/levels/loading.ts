import type { Instrument, JackFacts, Rig } from "../../rig/model/rig.js";
import { dividerGain, inParallel } from "../../rig/wiring/dividers.js";
import { usualCoil } from "../../rig/wiring/loadingNote.js";
import { type Net, netsOf } from "../../rig/wiring/nets.js";
import {
  type JackLoad,
  jackLevel,
  type LevelOver,
  type Peak,
  peakBetween,
  trebleOf,
} from "../../rig/wiring/pickupCircuit.js";
import { boughtAs } from "../../rig/wiring/soldBoxes.js";
import type { Box, SplitterBox, Wiring } from "../../rig/wiring/wiring.js";

/** One output and everything that hangs on it. */
export interface Load {
  readonly from: string;
  readonly fromJack: string;
  /** Inputs that it drives, in parallel where there are several. */
  readonly to: readonly { readonly box: string; readonly jack: string; readonly inputOhms: number | null }[];
  /** Boxes without a buffer that stand between: passive splitters, pedals off by true bypass. */
  readonly through: readonly string[];
  readonly sourceOhms: number | null;
  /** All inputs in parallel; null where one of them is not given. */
  readonly loadOhms: number | null;
  readonly cableMetres: number;
  readonly cablePicofarads: number;
  /** 20 log10(load / (source + load)); null where an impedance is not given. */
  readonly lossDb: number | null;
  /** Where treble lies 3 dB under low frequencies, from there up; null where the rig gives too little to know. */
  readonly cornerHz: number | null;
  /** Of a pickup with cables and inputs: the peak against low frequencies; null where there is none or it is not known. */
  readonly resonance: Peak | null;
  /** `pickup`: a coil whose henries are given. `unknown`: an instrument of which the rig does not tell. */
  readonly source: "resistance" | "pickup" | "unknown";
}

/** What a splitter's buffer is worth: the box ahead of it, loaded through the buffer and without. */
export interface SplitLoad {
  readonly box: string;
  readonly buffered: boolean;
  readonly withBuffer: SourceLoss;
  readonly without: SourceLoss;
  /** Of a pickup: where the two are most apart between 20 Hz and 20 kHz, and by how much without is louder; else null. */
  readonly mostApart: Peak | null;
}
export type SourceLoss = Pick<Load, "lossDb" | "cornerHz" | "resonance" | "source">;

export interface Loading {
  readonly loads: readonly Load[];
  readonly splits: readonly SplitLoad[];
  /** Impedances that the rig file leaves out and a figure above needs: "Ledger: inputOhms". */
  readonly missing: readonly string[];
  /** Sentences on what of the pickup is usual for its kind and not this one's own. */
  readonly usualCoil: readonly string[];
}

/**
 * How the boxes of a wiring load each other. A divider of source and load takes level: 20 log10(ZL / (ZS + ZL));
 * with the cables' capacitance the two make a low-pass at 1 / (2 pi R C), R = ZS and ZL in parallel (ZS alone where ZL
 * is not given). Impedances are taken for resistances, but for a pickup whose henries are given: `pickupCircuit.ts`
 * solves it. An instrument without henries may have a coil or not, so nothing is told of its treble.
 *
 * Source: closed forms of the voltage divider and the first-order RC low-pass (Thevenin's theorem).
 */
export function loadingOf(wiring: Wiring, rig: Rig): Loading {
  const facts = factsOf(rig, wiring);
  const nets = netsOf(wiring, rig.cables);
  return {
    loads: nets.map((net) => loadOf(net, facts, rig.instrument).load),
    splits: wiring.boxes.flatMap((box) => (box.kind === "splitter" ? [splitOf(box, wiring, rig)] : [])),
    missing: missingOf(nets, facts, rig.instrument),
    usualCoil: usualCoil(rig.instrument),
  };
}

/** Loss of a divider, dB: 0 for a load of no current, -6.02 where both are alike. */
export const dividerLossDb = (sourceOhms: number, loadOhms: number): number =>
  20 * Math.log10(dividerGain(sourceOhms, loadOhms));

/** Corner of a first-order low-pass, Hz: 1 / (2 pi R C). */
export const cornerHz = (ohms: number, picofarads: number): number =>
  1 / (2 * Math.PI * ohms * picofarads * 1e-12);

type Facts = (box: Box) => Pick<JackFacts, "inputOhms" | "outputOhms">;

function factsOf(rig: Rig, wiring: Wiring): Facts {
  return (box) => {
    switch (box.kind) {
      case "take":
        return { inputOhms: null, outputOhms: jackOhms(rig.instrument) };
      case "destination":
        return { inputOhms: rig.destination.inputOhms, outputOhms: null };
      case "pedal":
        return box.pedal;
      default:
        return boughtAs(box, wiring, rig) ?? { inputOhms: null, outputOhms: null };
    }
  };
}

/** Resistance that an instrument's jack has at low frequencies, by Thevenin's theorem. */
function jackOhms({ outputOhms, volume }: Instrument): number | null {
  if (outputOhms === null || volume === null) return outputOhms;
  const { ohms, trackShare } = volume;
  return inParallel([outputOhms + (1 - trackShare) * ohms, trackShare * ohms]);
}

/** A net with its figures, and its level over frequency where a coil drives it and all that it takes is given. */
function loadOf(
  net: Net,
  facts: Facts,
  instrument: Instrument,
): { readonly load: Load; readonly level: LevelOver | null } {
  const { from, to, through, metres, picofarads } = net;
  const sourceOhms = facts(from.box).outputOhms;
  const inputs = to.map(({ box, jack }) => ({ box: box.label, jack, inputOhms: facts(box).inputOhms }));
  const known = inputs.flatMap(({ inputOhms }) => inputOhms ?? []);
  const loadOhms = inputs.length > 0 && known.length === inputs.length ? inParallel(known) : null;
  const seenOhms = sourceOhms !== null && loadOhms !== null ? inParallel([sourceOhms, loadOhms]) : sourceOhms;
  const source = sourceOf(from.box, instrument);
  const level = from.box.kind === "take" ? levelOf(instrument, { ohms: loadOhms, picofarads }) : null;
  const corner =
    seenOhms === null || picofarads === 0 || source !== "resistance" ? null : cornerHz(seenOhms, picofarads);
  const load = {
    from: from.box.label,
    fromJack: from.jack,
    to: inputs,
    through: through.map(({ label }) => label),
    sourceOhms,
    loadOhms,
    cableMetres: metres,
    cablePicofarads: picofarads,
    lossDb: sourceOhms === null || loadOhms === null ? null : dividerLossDb(sourceOhms, loadOhms),
    ...(level ? trebleOf(level) : { resonance: null, cornerHz: corner }),
    source,
  };
  return { load, level };
}

function sourceOf(box: Box, { henries }: Instrument): Load["source"] {
  if (box.kind !== "take" || henries === 0) return "resistance";
  return henries === null ? "unknown" : "pickup";
}

/** At an instrument's jack; null where the rig gives too little: a coil without a load rings as high as it likes. */
function levelOf(
  { outputOhms, henries, picofarads, volume, tone }: Instrument,
  load: JackLoad,
): LevelOver | null {
  if (outputOhms === null || henries === null || (henries > 0 && load.ohms === null)) return null;
  return jackLevel({ ohms: outputOhms, henries, picofarads: picofarads ?? 0, volume, tone }, load);
}

/** The box ahead of a splitter, loaded by a buffered one and by a passive one in its place. */
function splitOf(splitter: SplitterBox, wiring: Wiring, rig: Rig): SplitLoad {
  const ahead = (buffered: boolean): ReturnType<typeof loadOf> | null => {
    const boxes = wiring.boxes.map((box) => (box === splitter ? { ...splitter, buffered } : box));
    const net = netsOf({ ...wiring, boxes }, rig.cables).find(({ to, through }) =>
      [...to.map(({ box }) => box), ...through].some(({ id }) => id === splitter.id),
    );
    return net ? loadOf(net, factsOf(rig, wiring), rig.instrument) : null;
  };
  const [withBuffer, without] = [ahead(true), ahead(false)];
  return {
    box: splitter.label,
    buffered: splitter.buffered,
    withBuffer: lossOf(withBuffer?.load),
    without: lossOf(without?.load),
    mostApart:
      withBuffer?.level && without?.level && withBuffer.load.source === "pickup"
        ? mostApart(withBuffer.level, without.level)
        : null,
  };
}

function lossOf(load: Load | undefined): SourceLoss {
  if (!load) return { lossDb: null, cornerHz: null, resonance: null, source: "resistance" };
  const { lossDb, cornerHz, resonance, source } = load;
  return { lossDb, cornerHz, resonance, source };
}

/** Within hearing: where one level over frequency is furthest from another, and its height over that one. */
function mostApart(from: LevelOver, level: LevelOver): Peak {
  const { hz } = peakBetween((at) => Math.abs(level(at) - from(at)), 20, 20_000);
  return { hz, db: level(hz) - from(hz) };
}

function missingOf(nets: readonly Net[], facts: Facts, instrument: Instrument): readonly string[] {
  const { outputOhms, henries, picofarads } = instrument;
  const missing = nets.flatMap(({ from, to }) => [
    ...(facts(from.box).outputOhms === null ? [`${from.box.label}: outputOhms`] : []),
    ...(from.box.kind === "take" && outputOhms !== null && henries === null
      ? [`${from.box.label}: henries (0 for no coil)`]
      : []),
    ...(from.box.kind === "take" && henries !== null && henries > 0 && picofarads === null
      ? [`${from.box.label}: picofarads (taken as 0)`]
      : []),
    ...to.flatMap(({ box }) => (facts(box).inputOhms === null ? [`${box.label}: inputOhms`] : [])),
  ]);
  return [...new Set(missing)];
}
