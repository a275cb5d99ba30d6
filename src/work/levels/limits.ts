import type { Rig } from "../../rig/model/rig.js";
import { boughtAs } from "../../rig/wiring/soldBoxes.js";
import type { Box, Cable, MixerBox, SummingBox, Wiring } from "../../rig/wiring/wiring.js";
import { dbToGain } from "../../sound/dsp/units.js";
import { dbuToDbfs } from "./dbu.js";

/** The most that a box bears at the end of one cable. */
export interface Limit {
  readonly box: Box;
  /** The box's own jack at this cable. */
  readonly jack: string;
  readonly at: "input" | "output";
  readonly dbfs: number;
  /** The same as the size of a sample, full scale 1. */
  readonly gain: number;
  /** What the maker states, or full scale for a sum that nothing is stated of. */
  readonly by: "stated" | "full-scale";
}

export interface StatedMaxima {
  readonly maxInputDbu: number | null;
  readonly maxOutputDbu: number | null;
}

/** What a box states as its most; nothing of an instrument. */
export function maximaOf(box: Box, wiring: Wiring, rig: Rig): StatedMaxima {
  switch (box.kind) {
    case "take":
      return { maxInputDbu: null, maxOutputDbu: null };
    case "destination":
      return { maxInputDbu: rig.destination.maxInputDbu, maxOutputDbu: null };
    case "pedal":
      return box.pedal;
    default:
      return boughtAs(box, wiring, rig) ?? { maxInputDbu: null, maxOutputDbu: null };
  }
}

/** Branches are added here. */
export const isSum = (box: Box): box is MixerBox | SummingBox =>
  box.kind === "mixer" || box.kind === "summing-box";

/** The limits that hold on one cable: of the output that feeds it and of the input that takes it. */
export function limitsOn(cable: Cable, wiring: Wiring, rig: Rig): readonly Limit[] {
  const maxima = (box: Box) => maximaOf(box, wiring, rig);
  const find = (id: string) => wiring.boxes.find((box) => box.id === id);
  const [from, to] = [find(cable.from.box), find(cable.to.box)];
  return [
    ...(from ? limitAt(from, cable.from.jack, "output", rig, maxima(from)) : []),
    ...(to ? limitAt(to, cable.to.jack, "input", rig, maxima(to)) : []),
  ];
}

function limitAt(
  box: Box,
  jack: string,
  at: "input" | "output",
  rig: Rig,
  { maxInputDbu, maxOutputDbu }: StatedMaxima,
): readonly Limit[] {
  const dbu = at === "input" ? maxInputDbu : maxOutputDbu;
  if (dbu !== null && rig.reference !== null) {
    const dbfs = dbuToDbfs(dbu, rig.reference);
    return [{ box, jack, at, dbfs, gain: dbToGain(dbfs), by: "stated" }];
  }
  return at === "output" && isSum(box) ? [{ box, jack, at, dbfs: 0, gain: 1, by: "full-scale" }] : [];
}
