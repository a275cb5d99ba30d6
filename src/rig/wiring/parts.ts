import type { BuyableBox, OnHand, Pedal, Rig, SizeMm, Supply } from "../model/rig.js";
import { returnsOf } from "./returns.js";
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
  const needs = wiring.boxes.filter(isBoxPart).map((box) => needOf(box, wiring));
  const uncovered = new Set(uncoveredBy(rig.onHand, needs));
  const boxParts = needs.map((need): SheetPart => {
    const { kind } = need.box;
    const { price, supply, size } = rig.boxes[kind];
    return { what: need.what, box: kind, count: 1, toBuy: uncovered.has(need) ? 1 : 0, price, supply, size };
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

/** A box to be had: what a person asks for in a shop, and how many outputs, inputs or channel pairs it must have. */
interface Need {
  readonly box: BoxPart;
  readonly what: string;
  readonly size: number;
}

function needOf(box: BoxPart, wiring: Wiring): Need {
  switch (box.kind) {
    case "splitter": {
      const what = `${box.buffered ? "Buffered" : "Passive"} splitter, 1 in, ${box.outputs} out`;
      return { box, what, size: box.outputs };
    }
    case "summing-box":
      return { box, what: `Summing box, ${box.inputs} in, 1 out`, size: box.inputs };
    case "mixer": {
      // One channel pair for the stereo pedals, and one a return.
      const returns = returnsOf(box, wiring).length;
      const size = Math.max(1, Math.ceil((box.inputs.length - returns) / 2)) + returns;
      return { box, what: `${box.outputs === 2 ? "Stereo" : "Mono"} mixer, ${size} channel pairs`, size };
    }
  }
}

function describePedal(pedal: Pedal, rig: Rig): string {
  const isSecond = rig.pedals.some(({ name }) => name === pedal.name);
  return isSecond ? `Second ${pedal.name}` : pedal.name;
}

/** The needs that nothing on hand can meet. The most demanding is served first, by the smallest that will do. */
function uncoveredBy(onHand: readonly OnHand[], needs: readonly Need[]): readonly Need[] {
  const drawer = onHand
    .flatMap((item) => Array<OnHand>(item.count).fill(item))
    .sort((a, b) => sizeOf(a) - sizeOf(b));
  return [...needs]
    .sort((a, b) => b.size - a.size)
    .filter((need) => {
      const at = drawer.findIndex((item) => serves(item, need));
      if (at >= 0) drawer.splice(at, 1);
      return at < 0;
    });
}

const sizeOf = ({ box, outputs, pairs, inputs }: OnHand): number =>
  box === "splitter" ? outputs : box === "mixer" ? pairs : inputs;

const serves = (item: OnHand, { box, size }: Need): boolean =>
  item.box === box.kind &&
  sizeOf(item) >= size &&
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
