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
import { handPedalOf } from "./handPedal.js";
import type { Routing } from "./routing.js";

/** One thing wrong with a hand-drawn wiring, with its path in the rig: `["wirings", id, "cables", 2]`. */
export interface HandFault {
  readonly message: string;
  readonly path: readonly (string | number)[];
  /** It is the key at the end of the path that is wrong, not what stands under it. */
  readonly atKey?: boolean;
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
export const handFaults = (rig: Rig): readonly HandFault[] =>
  Object.entries(rig.wirings).flatMap(([id, hand]) =>
    faultsOf(hand, rig).map((fault) => ({ ...fault, path: ["wirings", id, ...fault.path] })),
  );

function faultsOf(hand: HandWiring, rig: Rig): readonly HandFault[] {
  const unknown = Object.entries(hand.boxes).flatMap(([id, box]) =>
    box.box === "pedal" && !handPedalOf(rig, box)
      ? [
          {
            message: `"${id}" is the pedal "${box.pedal}", which this rig does not have.`,
            path: ["boxes", id, "pedal"],
          },
        ]
      : [],
  );
  if (unknown.length > 0) return unknown;
  const unreadable = hand.cables.flatMap(({ from, to }, n) =>
    [from, to]
      .filter((end) => !end.includes(":"))
      .map((end) => ({
        message: `"${end}" names no jack; write box:jack, as in "take:out".`,
        path: ["cables", n],
      })),
  );
  if (unreadable.length > 0) return unreadable;
  const wiring = drawHand(hand, rig);
  const faults = checkWiring(wiring).map(({ message, cable, box }) => ({
    message,
    path: cable !== null ? ["cables", cable] : box !== null && box in hand.boxes ? ["boxes", box] : [],
    atKey: cable === null,
  }));
  return faults.some(({ path }) => path[0] === "cables") ? faults : [...faults, ...deadEnds(wiring, hand)];
}

/** Boxes from which nothing goes on: what they do is not heard. */
const deadEnds = ({ boxes, cables }: Wiring, hand: HandWiring): readonly HandFault[] =>
  boxes
    .filter(({ id }) => id in hand.boxes && !cables.some(({ from }) => from.box === id))
    .map(({ id }) => ({
      message: `what leaves "${id}" goes nowhere; cable it on or take it out.`,
      path: ["boxes", id],
      atKey: true,
    }));

/**
 * Boxes and cables as written; a stereo jack that is the only one in use may be called by its mono name or its own.
 * Whatever faults it has it is drawn, but for pedals that the rig does not have.
 */
function drawHand(hand: HandWiring, rig: Rig): Wiring {
  const ends = hand.cables.map(({ from, to }) => ({ from: jackOf(from), to: jackOf(to) }));
  const units = new Set(chainOf(rig).units.map(({ name }) => name));
  const boxes: Box[] = [
    takeBox(rig, ends),
    ...Object.entries(hand.boxes).flatMap(([id, box]): readonly Box[] =>
      box.box === "pedal" ? handPedal(id, hand, rig, ends, units) : [toBox(id, box)],
    ),
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
  rig: Rig,
  cables: readonly Cable[],
  units: ReadonlySet<string>,
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
      inputs: pedal.jacks === "stereo" ? sidesInUse(id, "to", cables) : 1,
      outputs: pedal.jacks === "mono" ? 1 : sidesInUse(id, "from", cables),
      fullyWet: hand.fullyWet,
      on: true,
      wetMuted: false,
      isUnit: units.has(standsFor.name),
    },
  ];
}

/** "in left" for a box with one input in use is "in"; "out 1" for a box with one output is "out". */
function plainName(jack: Jack, box: Box | undefined, jacksOf: (box: Box) => readonly string[]): Jack {
  const [plain, ...more] = box ? jacksOf(box) : [];
  const isOnly = plain !== undefined && more.length === 0;
  return isOnly && [`${plain} left`, `${plain} 1`].includes(jack.jack)
    ? { box: jack.box, jack: plain }
    : jack;
}
