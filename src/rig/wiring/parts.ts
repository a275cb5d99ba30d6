import type { BuyableBox, OnHand, Pedal, Rig, SizeMm, Supply } from "../model/rig.js";
import type { Box, MixerBox, PedalBox, SplitterBox, SummingBox, Wiring } from "./wiring.js";

export interface SheetPart {
  readonly what: string;
  readonly box: BuyableBox | "pedal";
  readonly count: number;
  readonly toBuy: number;
  /** Of one. */
  readonly price: number | null;
  readonly supply: Supply | null;
  readonly size: SizeMm | null;
}

type BoxPart = SplitterBox | SummingBox | MixerBox;

const isBoxPart = (box: Box): box is BoxPart =>
  box.kind === "splitter" || box.kind === "summing-box" || box.kind === "mixer";

export const pedalBoxes = (wiring: Wiring): readonly PedalBox[] =>
  wiring.boxes.filter((box): box is PedalBox => box.kind === "pedal");

/** Pedal boxes that the rig does not hold: second units, stereo units. The first box of each rig pedal is the rig's. */
export function extraPedals(wiring: Wiring, rig: Rig): readonly PedalBox[] {
  const owned = new Set(rig.pedals.map(({ name }) => name));
  return pedalBoxes(wiring).filter(({ pedal }) => !owned.delete(pedal.name));
}

/**
 * What a wiring needs beside the rig's own pedals, alike ones in one row, and how many of each are to buy. Boxes on
 * hand go to the largest needs that they can serve.
 */
export function partsOf(wiring: Wiring, rig: Rig): readonly SheetPart[] {
  const boxes = wiring.boxes.filter(isBoxPart);
  const uncovered = new Set(uncoveredBy(rig.onHand, boxes));
  const boxParts = boxes.map((box): SheetPart => {
    const { price, supply, size } = rig.boxes[box.kind];
    const toBuy = uncovered.has(box) ? 1 : 0;
    return { what: describe(box), box: box.kind, count: 1, toBuy, price, supply, size };
  });
  const pedalParts = extraPedals(wiring, rig).map(
    ({ pedal }): SheetPart => ({
      what: describePedal(pedal, rig),
      box: "pedal",
      count: 1,
      toBuy: 1,
      price: pedal.price,
      supply: pedal.supply,
      size: pedal.size,
    }),
  );
  return merged([...boxParts, ...pedalParts]);
}

/** Stereo inputs of a mixer: one channel pair for the stereo pedals, and one a return. */
const pairsOf = (box: MixerBox): number =>
  Math.max(1, Math.ceil(box.inputs.filter(({ isReturn }) => !isReturn).length / 2)) +
  box.inputs.filter(({ isReturn }) => isReturn).length;

/** What a person asks for in a shop. */
function describe(box: BoxPart): string {
  switch (box.kind) {
    case "splitter":
      return `${box.buffered ? "Buffered" : "Passive"} splitter, 1 in, ${box.outputs} out`;
    case "summing-box":
      return `Summing box, ${box.inputs} in, 1 out`;
    case "mixer":
      return `${box.outputs === 2 ? "Stereo" : "Mono"} mixer, ${pairsOf(box)} channel pairs`;
  }
}

function describePedal(pedal: Pedal, rig: Rig): string {
  const isSecond = rig.pedals.some(({ name }) => name === pedal.name);
  return isSecond ? `Second ${pedal.name}` : pedal.name;
}

/** The boxes that nothing on hand can stand in for. The most demanding is served first, by the smallest that will do. */
function uncoveredBy(onHand: readonly OnHand[], boxes: readonly BoxPart[]): readonly BoxPart[] {
  const drawer = onHand
    .flatMap((item) => Array<OnHand>(item.count).fill(item))
    .sort((a, b) => sizeOf(a) - sizeOf(b));
  return [...boxes]
    .sort((a, b) => need(b) - need(a))
    .filter((box) => {
      const at = drawer.findIndex((item) => serves(item, box));
      if (at >= 0) drawer.splice(at, 1);
      return at < 0;
    });
}

const need = (box: BoxPart): number =>
  box.kind === "splitter" ? box.outputs : box.kind === "mixer" ? pairsOf(box) : box.inputs;

const sizeOf = ({ box, outputs, pairs, inputs }: OnHand): number =>
  box === "splitter" ? outputs : box === "mixer" ? pairs : inputs;

const serves = (item: OnHand, box: BoxPart): boolean =>
  item.box === box.kind &&
  sizeOf(item) >= need(box) &&
  (box.kind !== "splitter" || item.buffered || !box.buffered);

function merged(parts: readonly SheetPart[]): readonly SheetPart[] {
  const rows = new Map<string, SheetPart>();
  for (const part of parts) {
    const row = rows.get(part.what);
    rows.set(
      part.what,
      row ? { ...row, count: row.count + part.count, toBuy: row.toBuy + part.toBuy } : part,
    );
  }
  return [...rows.values()];
}
