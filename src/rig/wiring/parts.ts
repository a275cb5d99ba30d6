import type { BuyableBox, Pedal, Rig, SizeMm, Supply } from "../model/rig.js";
import { type BoxPart, isBoxPart, need, realBoxes } from "./soldBoxes.js";
import type { PedalBox, Wiring } from "./wiring.js";

export interface SheetPart {
  readonly what: string;
  readonly box: BuyableBox | "pedal";
  readonly count: number;
  readonly toBuy: number;
  /** Of one. */
  readonly price: number | null;
  readonly supply: Supply | null;
  readonly size: SizeMm | null;
  /** Jacks that are left over where the box has more than the wiring needs. */
  readonly spareJacks: readonly string[];
}

export const pedalBoxes = (wiring: Wiring): readonly PedalBox[] =>
  wiring.boxes.filter((box): box is PedalBox => box.kind === "pedal");

/** Pedal boxes that the rig does not hold: second units, stereo units. The first box of each rig pedal is the rig's. */
export function extraPedals(wiring: Wiring, rig: Rig): readonly PedalBox[] {
  const owned = new Set(rig.pedals.map(({ name }) => name));
  return pedalBoxes(wiring).filter(({ pedal }) => !owned.delete(pedal.name));
}

/** What a wiring needs beside the rig's own pedals, alike ones in one row, and how many of each are to buy. */
export function partsOf(wiring: Wiring, rig: Rig): readonly SheetPart[] {
  const real = realBoxes(wiring, rig);
  const boxParts = wiring.boxes.filter(isBoxPart).map((box): SheetPart => {
    const { isOnHand, jacks, facts } = real.get(box.id) ?? unknownBox;
    const has = jacks ?? need(box, wiring);
    const { price, supply, size } = facts;
    return {
      what: describe(box, has),
      box: box.kind,
      count: 1,
      toBuy: isOnHand ? 0 : 1,
      price,
      supply,
      size,
      spareJacks: spareJacks(box, has, need(box, wiring)),
    };
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
      spareJacks: [],
    }),
  );
  return merged([...boxParts, ...pedalParts]);
}

const unknownBox = { isOnHand: false, jacks: null, facts: { price: null, supply: null, size: null } };

/** What a person asks for in a shop: a box with so many outputs, inputs or channel pairs. */
function describe(box: BoxPart, has: number): string {
  switch (box.kind) {
    case "splitter":
      return `${box.buffered ? "Buffered" : "Passive"} splitter, 1 in, ${has} out`;
    case "summing-box":
      return `Summing box, ${has} in, 1 out`;
    case "mixer":
      return `${box.outputs === 2 ? "Stereo" : "Mono"} mixer, ${has} channel pairs`;
  }
}

/** Jacks of the real box that the wiring does not use: "Splitter, out 4". */
const spareJacks = (box: BoxPart, has: number, used: number): readonly string[] =>
  Array.from({ length: has - used }, (_, n) => `${box.label}, ${jackWord[box.kind]} ${used + n + 1}`);

const jackWord = { splitter: "out", "summing-box": "in", mixer: "channel pair" } as const;

function describePedal(pedal: Pedal, rig: Rig): string {
  const isSecond = rig.pedals.some(({ name }) => name === pedal.name);
  return isSecond ? `Second ${pedal.name}` : pedal.name;
}

function merged(parts: readonly SheetPart[]): readonly SheetPart[] {
  const rows = new Map<string, SheetPart>();
  for (const part of parts) {
    const row = rows.get(part.what);
    rows.set(
      part.what,
      row
        ? {
            ...row,
            count: row.count + part.count,
            toBuy: row.toBuy + part.toBuy,
            spareJacks: [...row.spareJacks, ...part.spareJacks],
          }
        : part,
    );
  }
  return [...rows.values()];
}
