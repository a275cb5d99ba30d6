import { chainOf } from "../model/chain.js";
import type { HandBox, HandWiring, Rig } from "../model/rig.js";
import {
  type Box,
  type Cable,
  inputJacks,
  type Jack,
  outputJacks,
  type PedalBox,
  sideJacks,
  type Wiring,
} from "../wiring/wiring.js";
import { destinationLabels, isMonoDestination } from "./board.js";
import { handPedalOf } from "./handPedal.js";

/**
 * Boxes and cables as written; a stereo jack that is the only one in use may be called by its mono name or its own.
 * Whatever faults it has it is drawn, but for pedals that the rig does not have.
 * @param jacks  those of stereo inputs and outputs that are in use, or all, for who draws on
 */
export function drawHand(hand: HandWiring, rig: Rig, jacks: "in-use" | "all" = "in-use"): Wiring {
  const ends = hand.cables.map(({ from, to }) => ({ from: jackOf(from), to: jackOf(to) }));
  const sides: Sides = (id, end) => (jacks === "all" ? 2 : sidesInUse(id, end, ends));
  const units = new Set(chainOf(rig).units.map(({ name }) => name));
  const boxes: Box[] = [
    takeBox(rig, sides),
    ...Object.entries(hand.boxes).flatMap(([id, box]): readonly Box[] =>
      box.box === "pedal" ? handPedal(id, hand, { rig, sides, units }) : [toBox(id, box)],
    ),
    {
      kind: "destination",
      id: "destination",
      label: destinationLabels[rig.playsInto],
      inputs: isMonoDestination(rig.playsInto) ? 1 : sides("destination", "to"),
    },
  ];
  const byId = new Map(boxes.map((box) => [box.id, box]));
  const cables = ends.map(({ from, to }) => ({
    from: plainName(from, byId.get(from.box), outputJacks),
    to: plainName(to, byId.get(to.box), inputJacks),
  }));
  return { boxes, cables };
}

/** How many of two jacks of a box there are to be seen. */
type Sides = (id: string, end: "from" | "to") => 1 | 2;

function takeBox(rig: Rig, sides: Sides): Box {
  const channels = rig.instrument.outputs;
  const outputs = channels === 2 ? sides("take", "from") : 1;
  return { kind: "take", id: "take", label: "Instrument", outputs, channels };
}

function jackOf(end: string): Jack {
  const at = end.lastIndexOf(":");
  return { box: end.slice(0, at).trim(), jack: end.slice(at + 1).trim() };
}

/** 2 when the right jack is cabled, else 1. */
function sidesInUse(id: string, end: "from" | "to", cables: readonly Cable[]): 1 | 2 {
  const [, right] = sideJacks(end === "from" ? "out" : "in", 2);
  return cables.some((cable) => cable[end].box === id && cable[end].jack === right) ? 2 : 1;
}

function toBox(id: string, hand: Exclude<HandBox, { box: "pedal" }>): Box {
  switch (hand.box) {
    case "splitter":
      return {
        kind: "splitter",
        id,
        label: id,
        outputs: hand.outputs,
        buffered: hand.buffered,
        ...(hand.mutes ? { muted: Array<boolean>(hand.outputs).fill(false) } : {}),
      };
    case "summing-box":
      return { kind: "summing-box", id, label: id, inputs: hand.inputs };
    case "mixer":
      return {
        kind: "mixer",
        id,
        label: id,
        outputs: hand.outputs,
        inputs: hand.inputs.map(({ gainDb, pan, mute }, n) => ({
          jack: `in ${n + 1}`,
          gainDb,
          pan,
          ...(mute ? { muted: false } : {}),
        })),
      };
  }
}

/** The pedal of a box; one that stands in the wiring several times is told by its ids. */
function handPedal(
  id: string,
  { boxes }: HandWiring,
  { rig, sides, units }: { rig: Rig; sides: Sides; units: ReadonlySet<string> },
): readonly PedalBox[] {
  const namesOf = (box: HandBox) => (box.box === "pedal" ? handPedalOf(rig, box)?.pedal.name : undefined);
  const hand = boxes[id];
  const found = hand.box === "pedal" ? handPedalOf(rig, hand) : null;
  if (hand.box !== "pedal" || !found) return [];
  const { pedal, standsFor } = found;
  const isOnlyOne = Object.values(boxes).filter((box) => namesOf(box) === pedal.name).length === 1;
  return [
    {
      kind: "pedal",
      id,
      label: isOnlyOne ? pedal.name : `${pedal.name} (${id})`,
      pedal,
      inputs: pedal.jacks === "stereo" ? sides(id, "to") : 1,
      outputs: pedal.jacks === "mono" ? 1 : sides(id, "from"),
      fullyWet: hand.fullyWet,
      on: true,
      wetMuted: false,
      isUnit: units.has(standsFor.name),
    },
  ];
}

/** "in left" for a box with one input in use is "in"; "out 1" for a box with one output is "out"; "out" of two is the left. */
function plainName(jack: Jack, box: Box | undefined, jacksOf: (box: Box) => readonly string[]): Jack {
  const [first, ...more] = box ? jacksOf(box) : [];
  if (first === undefined) return jack;
  const others = more.length === 0 ? [`${first} left`, `${first} 1`] : [first.replace(/ left$/, "")];
  return others.includes(jack.jack) ? { box: jack.box, jack: first } : jack;
}
