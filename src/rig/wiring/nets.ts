import type { CableFacts } from "../model/rig.js";
import { type Box, type Cable, inputJacks, outputJacks, type Wiring } from "./wiring.js";

/** An output that drives, and every input that it drives with nothing active between. */
export interface Net {
  readonly from: BoxJack;
  readonly to: readonly BoxJack[];
  readonly through: readonly Box[];
  readonly metres: number;
  readonly picofarads: number;
}
interface BoxJack {
  readonly box: Box;
  readonly jack: string;
}

/**
 * The nets of a wiring: each driving output with its cables, on through boxes that pass their input by a bare wire.
 * Those are passive splitters and pedals that are off by true bypass; all others drive what follows by themselves.
 */
export function netsOf({ boxes, cables }: Wiring, lengths: CableFacts): readonly Net[] {
  const byId = new Map(boxes.map((box) => [box.id, box]));
  // One jack holds one plug.
  const cableFrom = new Map(cables.map((cable) => [`${cable.from.box}\n${cable.from.jack}`, cable]));
  const follow = (box: Box, jack: string, net: Growing): void => {
    const cable = cableFrom.get(`${box.id}\n${jack}`);
    const next = cable && byId.get(cable.to.box);
    if (!next) return;
    net.metres += metresOf(cable, byId, lengths);
    if (!passesByWire(next)) net.to.push({ box: next, jack: cable.to.jack });
    else {
      net.through.push(next);
      for (const output of wiredTo(next, cable.to.jack)) follow(next, output, net);
    }
  };
  return boxes
    .filter((box) => !passesByWire(box))
    .flatMap((box) =>
      outputJacks(box).map((jack) => {
        const net: Growing = { to: [], through: [], metres: 0 };
        follow(box, jack, net);
        return { ...net, from: { box, jack }, picofarads: net.metres * lengths.picofaradsPerMetre };
      }),
    )
    .filter(({ to }) => to.length > 0);
}

interface Growing {
  readonly to: BoxJack[];
  readonly through: Box[];
  metres: number;
}

function passesByWire(box: Box): boolean {
  if (box.kind === "splitter") return !box.buffered;
  return box.kind === "pedal" && !box.on && box.pedal.whenOff === "true-bypass";
}

/** Outputs that an input of such a box is wired to: all of a splitter's, the same side of a pedal's. */
function wiredTo(box: Box, jack: string): readonly string[] {
  const outputs = outputJacks(box);
  if (inputJacks(box).length === 1) return outputs;
  const side = Math.min(inputJacks(box).indexOf(jack), outputs.length - 1);
  return [outputs[side]];
}

function metresOf({ from, to }: Cable, boxes: ReadonlyMap<string, Box>, lengths: CableFacts): number {
  if (boxes.get(from.box)?.kind === "take") return lengths.instrumentMetres;
  if (boxes.get(to.box)?.kind === "destination") return lengths.outputMetres;
  return lengths.patchMetres;
}
