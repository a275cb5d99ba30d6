import type { CableFacts, JackFacts, Pedal, Pickup } from "../model/rig.js";

/**
 * One picture for everything. A cable carries one mono signal from one output jack to one input jack; a box has
 * jacks; a wiring is boxes and cables. Sound, patch list, parts list and diagram all come from this object.
 */
export interface Wiring {
  readonly boxes: readonly Box[];
  readonly cables: readonly Cable[];
}

export interface Cable {
  readonly from: Jack;
  readonly to: Jack;
}
export interface Jack {
  /** `Box.id`. */
  readonly box: string;
  /** One of `inputJacks(box)` or `outputJacks(box)`. */
  readonly jack: string;
}

export type Box = TakeBox | PedalBox | SplitterBox | SummingBox | MixerBox | DestinationBox;

/** The guitar, the piano: where the take enters. */
export interface TakeBox {
  readonly kind: "take";
  readonly id: string;
  readonly label: string;
  /** Jacks in use. One of two gives the sum of both sides, (left + right) / 2, as a keyboard's mono output does. */
  readonly outputs: 1 | 2;
  /** Jacks that the instrument has. */
  readonly channels: 1 | 2;
  /** Left out where loading is not heard. */
  readonly loading?: TakeLoading;
}
/** What it takes to know how the boxes of a wiring load each other, beside what its pedals state. */
export interface TakeLoading {
  readonly pickup: Pickup;
  readonly recordedInto: { readonly ohms: number; readonly picofarads: number };
  readonly cables: CableFacts;
  /** Of boxes other than pedals, by id. */
  readonly ohms: Readonly<Record<string, Pick<JackFacts, "inputOhms" | "outputOhms">>>;
}
export interface PedalBox {
  readonly kind: "pedal";
  readonly id: string;
  readonly label: string;
  readonly pedal: Pedal;
  /** Jacks in use: 1 is the left (mono) one alone. */
  readonly inputs: 1 | 2;
  readonly outputs: 1 | 2;
  /** Runs fully wet, or as wet as it can: the dry leak stays where the pedal cannot. */
  readonly fullyWet: boolean;
  /** Footswitch. Off: passes its input, by true bypass or buffered, or mutes, as `pedal.whenOff` says. */
  readonly on: boolean;
  /** Silences the effect and keeps the dry path: the twin wiring that tells wet energy from dry. Never built. */
  readonly wetMuted: boolean;
  /** A mono unit after the split: what this whole comparison is about. */
  readonly isUnit: boolean;
}
export interface SplitterBox {
  readonly kind: "splitter";
  readonly id: string;
  readonly label: string;
  readonly outputs: number;
  readonly buffered: boolean;
  /** For each output, whether its mute is on; left out where it has none. */
  readonly muted?: readonly boolean[];
}
/** Inputs summed and divided by their number: (a + b) / 2, what a resistive summing box gives. */
export interface SummingBox {
  readonly kind: "summing-box";
  readonly id: string;
  readonly label: string;
  readonly inputs: number;
}
/** Each input has a gain and an equal-power pan: -1 left, 0 both at -3.01 dB, 1 right. One output: (L + R) / 2. */
export interface MixerBox {
  readonly kind: "mixer";
  readonly id: string;
  readonly label: string;
  readonly inputs: readonly MixerInput[];
  readonly outputs: 1 | 2;
}
export interface MixerInput {
  /** The jack: "in 1 left". */
  readonly jack: string;
  readonly gainDb: number;
  readonly pan: number;
  /** Whether its mute is on; left out where it has none. */
  readonly muted?: boolean;
}
/** Desk or amps. One input plays on both sides alike; a mono destination has one. */
export interface DestinationBox {
  readonly kind: "destination";
  readonly id: string;
  readonly label: string;
  readonly inputs: 1 | 2;
}

/** Names of one jack, or of a left and a right one. */
export const sideJacks = (word: "in" | "out", count: 1 | 2): readonly string[] =>
  count === 1 ? [word] : [`${word} left`, `${word} right`];
const numbered = (word: string, count: number): readonly string[] =>
  Array.from({ length: count }, (_, n) => `${word} ${n + 1}`);

/** Names of the jacks that take sound in, in channel order. */
export function inputJacks(box: Box): readonly string[] {
  switch (box.kind) {
    case "take":
      return [];
    case "pedal":
    case "destination":
      return sideJacks("in", box.inputs);
    case "splitter":
      return ["in"];
    case "summing-box":
      return numbered("in", box.inputs);
    case "mixer":
      return box.inputs.map((input) => input.jack);
  }
}

/** Names of the jacks that give sound out, in channel order. */
export function outputJacks(box: Box): readonly string[] {
  switch (box.kind) {
    case "destination":
      return [];
    case "summing-box":
      return ["out"];
    case "take":
    case "pedal":
    case "mixer":
      return sideJacks("out", box.outputs);
    case "splitter":
      return numbered("out", box.outputs);
  }
}

/** Boxes from the take on, each after all that feed it; otherwise in the order they stand in. Loops are cut. */
export function inSignalOrder(wiring: Wiring): readonly Box[] {
  const placed = new Set<string>();
  const waiting = [...wiring.boxes];
  const ordered: Box[] = [];
  const feeders = (id: string): string[] =>
    wiring.cables.filter(({ to }) => to.box === id).map(({ from }) => from.box);
  while (waiting.length > 0) {
    const ready = waiting.findIndex(({ id }) => feeders(id).every((feeder) => placed.has(feeder)));
    const [box] = waiting.splice(Math.max(0, ready), 1);
    placed.add(box.id);
    ordered.push(box);
  }
  return ordered;
}
