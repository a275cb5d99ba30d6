import type { JackFacts, Rig } from "../../rig/model/rig.js";
import { boughtAs } from "../../rig/wiring/soldBoxes.js";
import type { Box, SplitterBox, Wiring } from "../../rig/wiring/wiring.js";
import { type Net, netsOf } from "./nets.js";

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
  /** Where the cables take 3 dB off the treble; null where the source is not given. */
  readonly cornerHz: number | null;
}

/** What a splitter's buffer is worth: the box ahead of it, loaded through the buffer and without. */
export interface SplitLoad {
  readonly box: string;
  readonly buffered: boolean;
  readonly withBuffer: Pick<Load, "lossDb" | "cornerHz">;
  readonly without: Pick<Load, "lossDb" | "cornerHz">;
}

export interface Loading {
  readonly loads: readonly Load[];
  readonly splits: readonly SplitLoad[];
  /** Impedances that the rig file leaves out and a figure above needs: "Ledger: inputOhms". */
  readonly missing: readonly string[];
}

/**
 * How the boxes of a wiring load each other. A divider of source and load takes level: 20 log10(ZL / (ZS + ZL));
 * with the cables' capacitance the two make a low-pass at 1 / (2 pi R C), R = ZS and ZL in parallel (ZS alone where ZL
 * is not given). Impedances are taken for resistances: a pickup is none, and its resonance is not told here.
 *
 * Source: closed forms of the voltage divider and the first-order RC low-pass (Thevenin's theorem).
 */
export function loadingOf(wiring: Wiring, rig: Rig): Loading {
  const facts = factsOf(rig, wiring);
  const nets = netsOf(wiring, rig.cables);
  return {
    loads: nets.map((net) => loadOf(net, facts)),
    splits: wiring.boxes.flatMap((box) => (box.kind === "splitter" ? [splitOf(box, wiring, rig)] : [])),
    missing: missingOf(nets, facts),
  };
}

/** Loss of a divider, dB: 0 for a load of no current, -6.02 where both are alike. */
export const dividerLossDb = (sourceOhms: number, loadOhms: number): number =>
  20 * Math.log10(loadOhms / (sourceOhms + loadOhms));

/** Corner of a first-order low-pass, Hz: 1 / (2 pi R C). */
export const cornerHz = (ohms: number, picofarads: number): number =>
  1 / (2 * Math.PI * ohms * picofarads * 1e-12);

/** Impedances side by side: a b / (a + b), pair by pair. */
export const inParallel = (ohms: readonly number[]): number =>
  ohms.reduce((together, each) => (together * each) / (together + each));

type Facts = (box: Box) => Pick<JackFacts, "inputOhms" | "outputOhms">;

function factsOf(rig: Rig, wiring: Wiring): Facts {
  return (box) => {
    switch (box.kind) {
      case "take":
        return { inputOhms: null, outputOhms: rig.instrument.outputOhms };
      case "destination":
        return { inputOhms: rig.destination.inputOhms, outputOhms: null };
      case "pedal":
        return box.pedal;
      default:
        return boughtAs(box, wiring, rig) ?? { inputOhms: null, outputOhms: null };
    }
  };
}

function loadOf(net: Net, facts: Facts): Load {
  const { from, to, through, metres, picofarads } = net;
  const sourceOhms = facts(from.box).outputOhms;
  const inputs = to.map(({ box, jack }) => ({ box: box.label, jack, inputOhms: facts(box).inputOhms }));
  const known = inputs.flatMap(({ inputOhms }) => inputOhms ?? []);
  const loadOhms = inputs.length > 0 && known.length === inputs.length ? inParallel(known) : null;
  const seenOhms = sourceOhms !== null && loadOhms !== null ? inParallel([sourceOhms, loadOhms]) : sourceOhms;
  return {
    from: from.box.label,
    fromJack: from.jack,
    to: inputs,
    through: through.map(({ label }) => label),
    sourceOhms,
    loadOhms,
    cableMetres: metres,
    cablePicofarads: picofarads,
    lossDb: sourceOhms === null || loadOhms === null ? null : dividerLossDb(sourceOhms, loadOhms),
    cornerHz: seenOhms === null || picofarads === 0 ? null : cornerHz(seenOhms, picofarads),
  };
}

/** The box ahead of a splitter, loaded by a buffered one and by a passive one in its place. */
function splitOf(splitter: SplitterBox, wiring: Wiring, rig: Rig): SplitLoad {
  const ahead = (buffered: boolean): Pick<Load, "lossDb" | "cornerHz"> => {
    const boxes = wiring.boxes.map((box) => (box === splitter ? { ...splitter, buffered } : box));
    const net = netsOf({ ...wiring, boxes }, rig.cables).find(({ to, through }) =>
      [...to.map(({ box }) => box), ...through].some(({ id }) => id === splitter.id),
    );
    if (!net) return { lossDb: null, cornerHz: null };
    const load = loadOf(net, factsOf(rig, wiring));
    return { lossDb: load.lossDb, cornerHz: load.cornerHz };
  };
  return {
    box: splitter.label,
    buffered: splitter.buffered,
    withBuffer: ahead(true),
    without: ahead(false),
  };
}

function missingOf(nets: readonly Net[], facts: Facts): readonly string[] {
  const missing = nets.flatMap(({ from, to }) => [
    ...(facts(from.box).outputOhms === null ? [`${from.box.label}: outputOhms`] : []),
    ...to.flatMap(({ box }) => (facts(box).inputOhms === null ? [`${box.label}: inputOhms`] : [])),
  ]);
  return [...new Set(missing)];
}
