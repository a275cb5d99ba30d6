import type { Rig, SizeMm, Supply } from "../model/rig.js";
import { cautionsOf } from "./cautions.js";
import { extraPedals, partsOf, pedalBoxes, type SheetPart } from "./parts.js";
import { type SheetSetting, settingsOf } from "./settingsList.js";
import { inSignalOrder, type Wiring } from "./wiring.js";

/** What a person needs to wire a routing, and to buy for it. Made from the wiring and the rig. */
export interface BuildSheet {
  /** The patch list, in signal order. */
  readonly cables: readonly SheetCable[];
  /** Everything the wiring needs beside the pedals of the rig; `toBuy` is what the boxes on hand do not cover. */
  readonly parts: readonly SheetPart[];
  /** Current by voltage over all pedals and boxes in use, one outlet each. */
  readonly supply: readonly (Supply & { readonly outlets: number })[];
  /** Boxes in use whose supply is not given; passive ones may need none. */
  readonly supplyUnknown: readonly string[];
  /** Sum of the rectangles of all boxes in use, cm2; null when none is given. */
  readonly boardAreaCm2: number | null;
  readonly areaUnknown: readonly string[];
  /** Price of what is to buy, as far as prices are given; null when something is to buy and no price is known. */
  readonly price: number | null;
  readonly priceUnknown: readonly string[];
  readonly currency: string;
  /** What to set: mixer channels, mutes, units that run fully wet, knobs that stand otherwise than in the rig. */
  readonly settings: readonly SheetSetting[];
  readonly cautions: readonly string[];
  /** Boxes more than the rig itself: splitters, summing boxes, mixers, second or stereo units. */
  readonly extraBoxes: number;
}

export interface SheetCable {
  readonly from: string;
  readonly fromJack: string;
  readonly to: string;
  readonly toJack: string;
  /** Plugs of the two ends. */
  readonly plug: string;
}

/** A drawn routing, as far as the sheet needs it. */
export interface DrawnRouting {
  readonly wiring: Wiring;
  readonly cautions: readonly string[];
}

/** The sheet of one possible routing. Prices and sizes are sums of what the rig file gives; what it leaves out is named. */
export function buildSheet(rig: Rig, { wiring, cautions }: DrawnRouting): BuildSheet {
  const parts = partsOf(wiring, rig);
  const inUse = everythingInUse(wiring, rig);
  const toBuy = parts.filter((part) => part.toBuy > 0);
  const priced = toBuy.filter(({ price }) => price !== null);
  const sized = inUse.filter(({ size }) => size !== null);
  return {
    cables: sheetCables(wiring, rig),
    parts,
    supply: supplyOf(inUse),
    supplyUnknown: inUse.filter(({ supply }) => supply === null).map(({ what }) => what),
    boardAreaCm2: sized.length === 0 ? null : sized.reduce((sum, { size }) => sum + areaCm2(size), 0),
    areaUnknown: inUse.filter(({ size }) => size === null).map(({ what }) => what),
    price:
      toBuy.length > 0 && priced.length === 0
        ? null
        : priced.reduce((sum, { price, toBuy: count }) => sum + (price ?? 0) * count, 0),
    priceUnknown: toBuy.filter(({ price }) => price === null).map(({ what }) => what),
    currency: rig.currency,
    settings: settingsOf(wiring, rig),
    cautions: [...cautions, ...cautionsOf(wiring, rig)],
    extraBoxes: parts.reduce((sum, { count }) => sum + count, 0),
  };
}

/** Phone plugs throughout: what pedals, splitters and line mixers take (common practice, no source). */
const patchPlug = "TS 6.35 mm both ends";
const deskPlug = "TS 6.35 mm, into a DI box or line input at the desk";

function sheetCables(wiring: Wiring, rig: Rig): readonly SheetCable[] {
  const order = new Map(inSignalOrder(wiring).map((box, n) => [box.id, n]));
  const boxes = new Map(wiring.boxes.map((box) => [box.id, box]));
  const label = (id: string): string => boxes.get(id)?.label ?? id;
  const intoDesk = rig.playsInto === "stereo-desk" || rig.playsInto === "mono-desk";
  return [...wiring.cables]
    .sort((a, b) => (order.get(a.from.box) ?? 0) - (order.get(b.from.box) ?? 0))
    .map(({ from, to }) => ({
      from: label(from.box),
      fromJack: from.jack,
      to: label(to.box),
      toJack: to.jack,
      plug: intoDesk && boxes.get(to.box)?.kind === "destination" ? deskPlug : patchPlug,
    }));
}

interface InUse {
  readonly what: string;
  readonly supply: Supply | null;
  readonly size: SizeMm | null;
}

/** Pedals of the rig that this wiring uses, and every part, one entry a box. */
function everythingInUse(wiring: Wiring, rig: Rig): readonly InUse[] {
  const extra = new Set(extraPedals(wiring, rig));
  const own = pedalBoxes(wiring).filter((box) => !extra.has(box));
  const parts = partsOf(wiring, rig).flatMap((part) => Array<InUse>(part.count).fill(part));
  return [...own.map(({ pedal: { name, supply, size } }) => ({ what: name, supply, size })), ...parts];
}

function supplyOf(inUse: readonly InUse[]): BuildSheet["supply"] {
  const byVolts = new Map<number, { milliamps: number; outlets: number }>();
  for (const { supply } of inUse) {
    if (!supply || supply.milliamps === 0) continue;
    const { milliamps, outlets } = byVolts.get(supply.volts) ?? { milliamps: 0, outlets: 0 };
    byVolts.set(supply.volts, { milliamps: milliamps + supply.milliamps, outlets: outlets + 1 });
  }
  return [...byVolts].sort(([a], [b]) => a - b).map(([volts, sum]) => ({ volts, ...sum }));
}

const areaCm2 = (size: SizeMm | null): number => (size ? (size.widthMm * size.depthMm) / 100 : 0);
