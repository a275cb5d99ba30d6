import type { BoxFacts, OnHand, Rig, SoldBox } from "../model/rig.js";
import { returnsOf } from "./returns.js";
import type { Box, MixerBox, SplitterBox, SummingBox, Wiring } from "./wiring.js";

/** Boxes that are bought rather than played. */
export type BoxPart = SplitterBox | SummingBox | MixerBox;

export const isBoxPart = (box: Box): box is BoxPart =>
  box.kind === "splitter" || box.kind === "summing-box" || box.kind === "mixer";

/** The real box that a drawn one is built with. */
export interface RealBox {
  readonly isOnHand: boolean;
  /** What `need` counts, as the real one has it; null where that is as many as it needs. */
  readonly jacks: number | null;
  readonly mutes: boolean;
  readonly facts: Pick<BoxFacts, "price" | "supply" | "size">;
}

/** Outputs of a splitter, inputs of a summing box; of a mixer, channel pairs: one for the stereo pedals, one a return. */
export function need(box: BoxPart, wiring: Wiring): number {
  if (box.kind === "splitter") return box.outputs;
  if (box.kind === "summing-box") return box.inputs;
  const returns = returnsOf(box, wiring).length;
  return Math.max(1, Math.ceil((box.inputs.length - returns) / 2)) + returns;
}

/** The size to buy: the cheapest that serves, else the smallest that does; null where none is large enough. */
export function boughtAs(box: BoxPart, wiring: Wiring, { boxes }: Pick<Rig, "boxes">): SoldBox | null {
  const serving = boxes[box.kind].filter(({ jacks }) => jacks === null || jacks >= need(box, wiring));
  return cheapest(serving);
}

/** Of the same price, or of none, the smaller one. */
const cheapest = (sizes: readonly SoldBox[]): SoldBox | null =>
  [...sizes].sort(
    (a, b) => (a.price ?? noPrice) - (b.price ?? noPrice) || (a.jacks ?? 0) - (b.jacks ?? 0),
  )[0] ?? null;

const noPrice = Number.MAX_VALUE;

/** What each splitter, summing box and mixer of a wiring is built with, by id: boxes on hand, the rest as sold. */
export function realBoxes(wiring: Wiring, rig: Pick<Rig, "boxes" | "onHand">): ReadonlyMap<string, RealBox> {
  const boxes = wiring.boxes.filter(isBoxPart);
  const fromDrawer = servedBy(rig.onHand, boxes, wiring);
  return new Map(
    boxes.map((box) => {
      const item = fromDrawer.get(box);
      return [box.id, item ? onHandAs(item, rig) : soldAs(boughtAs(box, wiring, rig))];
    }),
  );
}

const unknown = { price: null, supply: null, size: null };

const soldAs = (sold: SoldBox | null): RealBox => ({
  isOnHand: false,
  jacks: sold?.jacks ?? null,
  mutes: sold?.mutes ?? false,
  facts: sold ?? unknown,
});

/** A box on hand has what one of its size has that is sold. */
function onHandAs(item: OnHand, { boxes }: Pick<Rig, "boxes">): RealBox {
  const jacks = sizeOf(item);
  const alike = boxes[item.box].filter((sold) => sold.jacks === null || sold.jacks === jacks);
  return { isOnHand: true, jacks, mutes: item.mutes, facts: cheapest(alike) ?? unknown };
}

/** The boxes that something on hand stands in for. The most demanding is served first, by the smallest that will do. */
function servedBy(
  onHand: readonly OnHand[],
  boxes: readonly BoxPart[],
  wiring: Wiring,
): ReadonlyMap<BoxPart, OnHand> {
  const drawer = onHand
    .flatMap((item) => Array<OnHand>(item.count).fill(item))
    .sort((a, b) => sizeOf(a) - sizeOf(b));
  const served = new Map<BoxPart, OnHand>();
  for (const box of [...boxes].sort((a, b) => need(b, wiring) - need(a, wiring))) {
    const at = drawer.findIndex((item) => serves(item, box, wiring));
    for (const item of at < 0 ? [] : drawer.splice(at, 1)) served.set(box, item);
  }
  return served;
}

const sizeOf = ({ box, outputs, pairs, inputs }: OnHand): number =>
  box === "splitter" ? outputs : box === "mixer" ? pairs : inputs;

const serves = (item: OnHand, box: BoxPart, wiring: Wiring): boolean =>
  item.box === box.kind &&
  sizeOf(item) >= need(box, wiring) &&
  (box.kind !== "splitter" || item.buffered || !box.buffered);
