import { newWiring, wiringIds } from "../../rig/file/wiringEdits.js";
import { longestLabel } from "../../rig/model/bounds.js";
import type { HandBox, HandWiring } from "../../rig/model/rig.js";
import { handCopy } from "../../rig/routings/handCopy.js";
import { buildable, type View } from "./view.js";

/** A routing that a drawing may begin with. */
export interface DrawnFrom {
  readonly id: string;
  readonly label: string;
}

/** Routings of the rig as it is now that a drawing may begin with. */
export const copyable = (view: View): readonly DrawnFrom[] =>
  view.bench.report
    ? buildable(view).filter(({ id }) => !view.bench.kept.some((each) => each.id === id))
    : [];

/** One more wiring of one's own: a copy of a routing, or nothing but the instrument and what the rig plays into. */
export function startDrawing(view: View, from: DrawnFrom | null): void {
  const { desk } = view.bench;
  const wiring = from && view.bench.wiringOf(from.id);
  const drawn: Omit<HandWiring, "label"> = wiring
    ? rounded(handCopy(wiring, view.bench.rig))
    : { boxes: {}, cables: [] };
  const label = freeLabel(view, from && wiring ? `${from.label}, by hand` : "By hand");
  desk.edit(`a drawing: ${label}`, newWiring(freeWiringId(view), { label, ...drawn }));
  const field = view.root.querySelector<HTMLInputElement>("#draw .draw-label input");
  field?.scrollIntoView({ block: "center" });
  field?.focus();
  view.say(wiring ? `${label}: a copy to change.` : `${label}: an empty board.`);
}

/** Levels to 0.01 dB, as a person would write them. */
function rounded({ boxes, cables }: Omit<HandWiring, "label">): Omit<HandWiring, "label"> {
  const to2 = (value: number) => Math.round(value * 100) / 100;
  const box = (hand: HandBox): HandBox =>
    hand.box === "mixer"
      ? {
          ...hand,
          inputs: hand.inputs.map((input) => ({ ...input, gainDb: to2(input.gainDb), pan: to2(input.pan) })),
        }
      : hand;
  return {
    boxes: Object.fromEntries(Object.entries(boxes).map(([id, hand]) => [id, box(hand)])),
    cables,
  };
}

/** An id that no wiring of the rig, no kept state of it and no recording has. */
function freeWiringId({ bench }: View): string {
  const taken = [...wiringIds(bench.desk.data), ...(bench.report?.routings ?? []).map(({ id }) => id)];
  let n = 1;
  while (taken.includes(`by-hand-${n}`)) n++;
  return `by-hand-${n}`;
}

/** As long as a label may be, and unlike all others. */
function freeLabel({ bench }: View, wanted: string): string {
  const drawn = Object.values(bench.desk.draft?.wirings ?? {}).map(({ label }) => label);
  const taken = [...drawn, ...(bench.report?.routings ?? []).map(({ label }) => label)];
  const isTaken = (label: string) => taken.some((other) => other.toLowerCase() === label.toLowerCase());
  const numbered = (n: number) =>
    n === 1 ? wanted.slice(0, longestLabel) : `${wanted.slice(0, longestLabel - 4)} ${n}`;
  let n = 1;
  while (isTaken(numbered(n))) n++;
  return numbered(n);
}
