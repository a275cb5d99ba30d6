import type { HandBox, HandWiring, Rig } from "../model/rig.js";
import { type Box, inputJacks, outputJacks, type PedalBox, type Wiring } from "../wiring/wiring.js";

/**
 * Any wiring as a person would write it in a rig file: boxes under ids, cables from jack to jack. Read again, it is the
 * same sound.
 * @param handPedal  what stands in the file for a pedal
 */
export function drawnByHand(
  { boxes, cables }: Wiring,
  handPedal: (box: PedalBox) => HandBox,
): Omit<HandWiring, "label"> {
  const ids = new Map<string, string>();
  const byId = new Map(boxes.map((box) => [box.id, box]));
  for (const { id, kind } of boxes) {
    ids.set(id, kind === "take" || kind === "destination" ? kind : freeBoxId(id, [...ids.values()]));
  }
  const end = (box: string, jack: string, jacksOf: (box: Box) => readonly string[]): string => {
    const there = byId.get(box)!;
    const name =
      there.kind === "mixer" && jacksOf === inputJacks ? `in ${jacksOf(there).indexOf(jack) + 1}` : jack;
    return `${ids.get(box)}:${name}`;
  };
  return {
    boxes: Object.fromEntries(
      boxes.flatMap((box) => {
        const hand = handBox(box, handPedal);
        return hand ? [[ids.get(box.id)!, hand]] : [];
      }),
    ),
    cables: cables.map(({ from, to }) => ({
      from: end(from.box, from.jack, outputJacks),
      to: end(to.box, to.jack, inputJacks),
    })),
  };
}

function handBox(box: Box, handPedal: (box: PedalBox) => HandBox): HandBox | null {
  switch (box.kind) {
    case "take":
    case "destination":
      return null;
    case "splitter":
      return {
        box: "splitter",
        outputs: box.outputs,
        buffered: box.buffered,
        ...(box.muted === undefined ? {} : { mutes: true }),
      };
    case "summing-box":
      return { box: "summing-box", inputs: box.inputs };
    case "mixer":
      return {
        box: "mixer",
        inputs: box.inputs.map(({ gainDb, pan, muted }) => ({
          gainDb,
          pan,
          ...(muted === undefined ? {} : { mute: true }),
        })),
        outputs: box.outputs,
      };
    case "pedal":
      return handPedal(box);
  }
}

/** A box's id in small letters, digits and hyphens, at most 40, unlike those taken. */
function freeBoxId(id: string, taken: readonly string[]): string {
  const plain =
    id
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .slice(0, 34) || "box";
  const trimmed = plain.replace(/-+$/, "");
  let free = trimmed;
  for (let n = 2; taken.includes(free) || free === "take" || free === "destination"; n++)
    free = `${trimmed}-${n}`;
  return free;
}

/**
 * The same for a box that comes onto a board. One that is no pedal is called by its id, and so unlike every pedal of the
 * rig, on the board or not: "mixer, in" beside "Mixer, in" is plugged wrong.
 */
export function newBoxId(called: string, box: HandBox, taken: readonly string[], rig: Rig): string {
  const pedals = rig.pedals.flatMap((own) => [own, ...own.alternatives]);
  const names = box.box === "pedal" ? [] : pedals.map(({ name }) => freeBoxId(name, []));
  return freeBoxId(called, [...taken, ...names]);
}
