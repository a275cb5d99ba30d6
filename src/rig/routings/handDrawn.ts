import { type Fault, UserError } from "../../text/userError.js";
import { chainOf } from "../model/chain.js";
import type { HandBox, HandWiring, Rig } from "../model/rig.js";
import { checkWiring } from "../wiring/check.js";
import { withLoading } from "../wiring/loading.js";
import { looseEnds } from "../wiring/looseEnds.js";
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
import type { Routing } from "./routing.js";

/** One thing wrong with a hand-drawn wiring, with its path in the rig: `["wirings", id, "cables", 2]`. */
export interface HandFault {
  readonly message: string;
  readonly path: readonly (string | number)[];
}

/** The rig's own wirings as routings. @throws UserError naming each fault and the wiring it is in */
export function handDrawnRoutings(rig: Rig): readonly Routing[] {
  const faults = handFaults(rig);
  if (faults.length > 0)
    throw new UserError(
      faults.map(({ message, path }): Fault => ({ message: `${path.slice(0, 2).join(".")}: ${message}` })),
    );
  return Object.entries(rig.wirings).map(([id, hand]) => {
    const wiring = withLoading(drawHand(hand, rig), rig);
    return {
      id,
      label: hand.label,
      says: "Drawn by hand in the rig file.",
      wiring,
      reason: null,
      cautions: looseEnds(wiring, rig),
      plan: null,
      doubt: null,
    };
  });
}

/** Everything wrong with the hand-drawn wirings of a rig; the rig reader turns paths into lines. */
export function handFaults(rig: Rig): readonly HandFault[] {
  return Object.entries(rig.wirings).flatMap(([id, hand]) => {
    const path = ["wirings", id];
    const unreadable = hand.cables.flatMap(({ from, to }, n) =>
      [from, to]
        .filter((end) => !end.includes(":"))
        .map((end) => ({
          message: `"${end}" names no jack; write box:jack, as in "take:out".`,
          path: [...path, "cables", n],
        })),
    );
    if (unreadable.length > 0) return unreadable;
    return checkWiring(drawHand(hand, rig)).map(({ message, cable }) => ({
      message,
      path: cable === null ? path : [...path, "cables", cable],
    }));
  });
}

/** Boxes and cables as written; a stereo jack that is the only one in use may be called by its mono name or its own. */
function drawHand(hand: HandWiring, rig: Rig): Wiring {
  const ends = hand.cables.map(({ from, to }) => ({ from: jackOf(from), to: jackOf(to) }));
  const units = new Set(chainOf(rig).units.map(({ name }) => name));
  const boxes: Box[] = [
    takeBox(rig, ends),
    ...Object.entries(hand.boxes).map(([id, box]) => toBox(id, box, rig, ends, units)),
    {
      kind: "destination",
      id: "destination",
      label: destinationLabels[rig.playsInto],
      inputs: isMonoDestination(rig.playsInto) ? 1 : sidesInUse("destination", "to", ends),
    },
  ];
  const byId = new Map(boxes.map((box) => [box.id, box]));
  const cables = ends.map(({ from, to }) => ({
    from: plainName(from, byId.get(from.box), outputJacks),
    to: plainName(to, byId.get(to.box), inputJacks),
  }));
  return { boxes, cables };
}

/** The instrument with the outputs that are cabled. */
function takeBox(rig: Rig, cables: readonly Cable[]): Box {
  const channels = rig.instrument.outputs;
  const outputs = channels === 2 ? sidesInUse("take", "from", cables) : 1;
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

function toBox(
  id: string,
  hand: HandBox,
  rig: Rig,
  cables: readonly Cable[],
  units: ReadonlySet<string>,
): Box {
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
    case "pedal":
      return handPedal(id, hand, rig, cables, units);
  }
}

function handPedal(
  id: string,
  hand: HandBox & { box: "pedal" },
  rig: Rig,
  cables: readonly Cable[],
  units: ReadonlySet<string>,
): PedalBox {
  const pedal = rig.pedals.find(({ name }) => name === hand.pedal);
  if (!pedal)
    throw new UserError(`wirings: box "${id}" is the pedal "${hand.pedal}", which this rig does not have`);
  return {
    kind: "pedal",
    id,
    label: id === pedal.name ? id : `${pedal.name} (${id})`,
    pedal: { ...pedal, settings: { ...pedal.settings, ...hand.settings } },
    inputs: pedal.jacks === "stereo" ? sidesInUse(id, "to", cables) : 1,
    outputs: pedal.jacks === "mono" ? 1 : sidesInUse(id, "from", cables),
    fullyWet: hand.fullyWet,
    on: true,
    wetMuted: false,
    isUnit: units.has(pedal.name),
  };
}

/** "in left" for a box with one input in use is "in"; "out 1" for a box with one output is "out". */
function plainName(jack: Jack, box: Box | undefined, jacksOf: (box: Box) => readonly string[]): Jack {
  const [plain, ...more] = box ? jacksOf(box) : [];
  const isOnly = plain !== undefined && more.length === 0;
  return isOnly && [`${plain} left`, `${plain} 1`].includes(jack.jack)
    ? { box: jack.box, jack: plain }
    : jack;
}
