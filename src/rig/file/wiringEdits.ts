import type { HandBox, HandWiring } from "../model/rig.js";
import { cableEnds, cableText } from "./cableText.js";
import { listAt, mapAt } from "./dataAt.js";
import type { RigEdit } from "./editRig.js";
import type { Path } from "./yaml.js";

/** Plain data of a rig file, as far as it goes: it may have any fault. */
type Data = unknown;

export const wiringPath = (id: string): Path => ["wirings", id];

/** Ids of the wirings that are drawn by hand, as they stand in the file. */
export const wiringIds = (data: Data): readonly string[] => Object.keys(mapAt(data, ["wirings"]));
export const boxIds = (data: Data, id: string): readonly string[] =>
  Object.keys(mapAt(data, [...wiringPath(id), "boxes"]));

/** What stands in the list of cables, ends by ends. */
export const cablesIn = (data: Data, id: string): readonly HandWiring["cables"][number][] =>
  listAt(data, [...wiringPath(id), "cables"]).map((text) => cableEnds(String(text)));

/** One more wiring; a cable a line. */
export function newWiring(id: string, { label, boxes, cables }: HandWiring): readonly RigEdit[] {
  const path = wiringPath(id);
  return [
    { set: path, to: { label, boxes: mapped(boxes, asWritten), cables: [] } },
    ...cables.map((cable, n): RigEdit => ({ into: [...path, "cables"], at: n, add: cableText(cable) })),
  ];
}

export const withoutWiring = (id: string): readonly RigEdit[] => [{ set: wiringPath(id), to: undefined }];

/** One more cable, from an output jack to an input jack, each as "box:jack". */
export const withCable = (data: Data, id: string, from: string, to: string): readonly RigEdit[] => [
  { into: [...wiringPath(id), "cables"], at: cablesIn(data, id).length, add: cableText({ from, to }) },
];

export const withoutCable = (id: string, place: number): readonly RigEdit[] => [
  { set: [...wiringPath(id), "cables", place], to: undefined },
];

/** One more box. */
export const withBox = (wiring: string, id: string, box: HandBox): readonly RigEdit[] => [
  { set: [...wiringPath(wiring), "boxes", id], to: asWritten(box) },
];

/** As a person would write it: what goes without saying is not said. */
function asWritten(box: HandBox): Record<string, unknown> {
  if (box.box !== "pedal") return { ...box };
  const { settings, fullyWet, ...rest } = box;
  const isSet = Object.keys(settings).length > 0;
  return { ...rest, ...(fullyWet ? { fullyWet } : {}), ...(isSet ? { settings } : {}) };
}

const mapped = <T, U>(map: Readonly<Record<string, T>>, to: (value: T) => U): Record<string, U> =>
  Object.fromEntries(Object.entries(map).map(([key, value]) => [key, to(value)]));

/** A box goes with its cables. */
export function withoutBox(data: Data, wiring: string, id: string): readonly RigEdit[] {
  const boxes = [...wiringPath(wiring), "boxes"];
  const isOf = (end: string) => end.slice(0, end.lastIndexOf(":")).trim() === id;
  const cables = cablesIn(data, wiring).flatMap(({ from, to }, n) => (isOf(from) || isOf(to) ? [n] : []));
  const isLast = boxIds(data, wiring).length === 1;
  return [
    // From the end, so that those that stay keep their places until then.
    ...cables.reverse().flatMap((n) => withoutCable(wiring, n)),
    isLast ? { set: boxes, to: {} } : { set: [...boxes, id], to: undefined },
  ];
}
