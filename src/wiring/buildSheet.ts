import type { BuyableBox, SizeMm, Supply } from "../rig/rig.js";

/** What a person needs to wire a routing, and to buy for it. Made from the wiring and the rig. */
export interface BuildSheet {
  /** The patch list, in signal order. */
  readonly cables: readonly SheetCable[];
  /** Everything the wiring needs beside the pedals of the rig; `toBuy` is what the boxes on hand do not cover. */
  readonly parts: readonly SheetPart[];
  /** Current by voltage, pedals and boxes; `unknown` names those whose supply is not given. */
  readonly supply: readonly (Supply & { readonly outlets: number })[];
  readonly supplyUnknown: readonly string[];
  /** Sum of the rectangles of all boxes, cm2; null when none is given. */
  readonly boardAreaCm2: number | null;
  readonly areaUnknown: readonly string[];
  /** Price of what is to buy; null when a price of any of it is not given and none is known. */
  readonly price: number | null;
  readonly priceUnknown: readonly string[];
  readonly currency: string;
  readonly cautions: readonly string[];
  /** Boxes more than the rig itself (splitters, summing boxes, mixers, second or stereo units). */
  readonly extraBoxes: number;
}
export interface SheetCable {
  readonly from: string;
  readonly fromJack: string;
  readonly to: string;
  readonly toJack: string;
  readonly plug: string;
}
export interface SheetPart {
  readonly what: string;
  readonly box: BuyableBox | "pedal";
  readonly count: number;
  readonly toBuy: number;
  readonly price: number | null;
  readonly supply: Supply | null;
  readonly size: SizeMm | null;
}
