import { modelOf } from "../../rig/pedals/models.js";
import { checkWiring } from "../../rig/wiring/check.js";
import { jackKey } from "../../rig/wiring/loading.js";
import {
  type Box,
  type Cable,
  inputJacks,
  type MixerBox,
  outputJacks,
  type PedalBox,
  type SplitterBox,
  type Wiring,
} from "../../rig/wiring/wiring.js";
import type { Board } from "./boardResponse.js";

export type FaultKind =
  | "sides-swapped"
  | "cable-elsewhere"
  | "cable-missing"
  | "polarity"
  | "mono-output"
  | "not-fully-wet"
  | "no-dry-sound"
  | "level"
  | "pan"
  | "latency"
  | "stays-off"
  | "passive-split";

/** One thing that may have gone wrong in building, with how far where it is a matter of degree. */
export interface FaultFamily {
  readonly kind: FaultKind;
  /** "polarity of Mixer, out left": the same words on every run. */
  readonly id: string;
  /** What it is that has gone wrong, as a sentence without its end; of an amount: what it is of. */
  readonly says: string;
  /** Boxes and cables that it concerns, for a check's name. */
  readonly where: string;
  /** What stands in the plan, for faults of degree. */
  readonly wanted: number | null;
  /** Values to try instead, for faults of degree; else null alone. */
  readonly amounts: readonly (number | null)[];
  /** So near to the plan it is none. */
  readonly tolerance: number;
  /** No value lies under it, or over the other. */
  readonly least: number;
  readonly greatest: number;
  /** Beyond the outermost values it goes on by so much. */
  readonly finest: number;
  readonly board: (amount: number) => Board;
  /** Two plugs that may change places: it sounds as drawn, and is none. */
  readonly changesNothing: boolean;
}

/** Every single miswiring of a plan. Some sound like others, and some like the plan itself: that is for recordings to tell. */
export function faultsOf(wiring: Wiring): readonly FaultFamily[] {
  return [
    ...exchanged(wiring),
    ...wiring.cables.map((cable, n) => missing(wiring, cable, n)),
    ...wiring.cables.map((cable) => inverted(wiring, cable)),
    ...wiring.boxes.flatMap((box) =>
      box.kind === "pedal"
        ? ofPedal(wiring, box)
        : box.kind === "mixer"
          ? ofMixer(wiring, box)
          : box.kind === "splitter" && box.buffered
            ? [passive(wiring, box)]
            : [],
    ),
  ];
}

/** The plan itself. */
export const asDrawn = (wiring: Wiring): Board => ({ wiring, inverted: new Set(), stuckOff: new Set() });

const whether = {
  wanted: null,
  amounts: [null],
  tolerance: 0,
  least: 0,
  greatest: 0,
  finest: 0,
  changesNothing: false,
} as const;

function jackWords({ boxes }: Wiring, { box: id, jack }: Cable["from"]): string {
  return `${boxes.find((box) => box.id === id)?.label ?? id}, ${jack}`;
}
const cableWords = (wiring: Wiring, { from, to }: Cable): string =>
  `${jackWords(wiring, from)} > ${jackWords(wiring, to)}`;

/** Two cables whose far ends have changed places. */
function exchanged(wiring: Wiring): readonly FaultFamily[] {
  const { cables } = wiring;
  return cables.flatMap((a, i) =>
    cables.slice(i + 1).flatMap((b, rest): readonly FaultFamily[] => {
      const j = i + 1 + rest;
      const built: Wiring = {
        boxes: wiring.boxes,
        cables: cables.map((cable, n) =>
          n === i ? { from: a.from, to: b.to } : n === j ? { from: b.from, to: a.to } : cable,
        ),
      };
      if (checkWiring(built).length > 0) return [];
      const isPair = a.from.box === b.from.box && a.to.box === b.to.box;
      const [from, to] = [a.from.box, a.to.box].map(
        (id) => wiring.boxes.find((box) => box.id === id)?.label ?? id,
      );
      return [
        {
          kind: isPair ? "sides-swapped" : "cable-elsewhere",
          id: `exchanged ${cableWords(wiring, a)} and ${cableWords(wiring, b)}`,
          says: isPair
            ? `The two cables from ${from} to ${to} are swapped`
            : `The cable from ${jackWords(wiring, a.from)} goes to ${jackWords(wiring, b.to)}, and that from ${jackWords(wiring, b.from)} to ${jackWords(wiring, a.to)}`,
          where: isPair ? `${from} > ${to}` : `${cableWords(wiring, a)}; ${cableWords(wiring, b)}`,
          ...whether,
          board: () => asDrawn(built),
          changesNothing: mayChangePlaces(wiring, a, b),
        },
      ];
    }),
  );
}

/** One splitter's outputs are alike, and so are the inputs of what adds them alike. */
function mayChangePlaces({ boxes }: Wiring, a: Cable, b: Cable): boolean {
  const boxOf = (id: string) => boxes.find((box) => box.id === id);
  const from = a.from.box === b.from.box ? boxOf(a.from.box) : undefined;
  if (from?.kind === "splitter") return from.muted === undefined;
  const to = a.to.box === b.to.box ? boxOf(a.to.box) : undefined;
  if (to?.kind !== "mixer") return to?.kind === "summing-box";
  const [one, other] = [a, b].map(({ to: { jack } }) => to.inputs.find((input) => input.jack === jack));
  return one?.gainDb === other?.gainDb && one?.pan === other?.pan && one?.muted === other?.muted;
}

/** A pedal whose right input has no plug hears its left one on both sides: jacks are normalled. */
function missing(wiring: Wiring, { from, to }: Cable, n: number): FaultFamily {
  const cables = wiring.cables.filter((_, each) => each !== n);
  const boxes = wiring.boxes.map(
    (box): Box =>
      box.kind === "pedal" && box.id === to.box && box.inputs === 2 && to.jack === inputJacks(box)[1]
        ? { ...box, inputs: 1 }
        : box,
  );
  const renamed = cables.map((cable) => {
    const box = boxes.find(({ id }) => id === cable.to.box);
    const isAlone = box?.kind === "pedal" && box.inputs === 1;
    return isAlone ? { from: cable.from, to: { box: box.id, jack: inputJacks(box)[0] } } : cable;
  });
  const where = cableWords(wiring, { from, to });
  return {
    kind: "cable-missing",
    id: `missing ${where}`,
    says: `The cable from ${jackWords(wiring, from)} to ${jackWords(wiring, to)} is missing or dead`,
    where,
    ...whether,
    board: () => asDrawn({ boxes, cables: renamed }),
  };
}

function inverted(wiring: Wiring, { from, to }: Cable): FaultFamily {
  const where = cableWords(wiring, { from, to });
  return {
    kind: "polarity",
    id: `polarity ${where}`,
    says: `Polarity is turned over between ${jackWords(wiring, from)} and ${jackWords(wiring, to)}`,
    where,
    ...whether,
    board: () => ({ ...asDrawn(wiring), inverted: new Set([jackKey(from.box, from.jack)]) }),
  };
}

function withBox<B extends Box>(wiring: Wiring, box: B, changes: Partial<B>): Wiring {
  return {
    cables: wiring.cables,
    boxes: wiring.boxes.map((each) => (each.id === box.id ? { ...box, ...changes } : each)),
  };
}

/** Latencies that are tried, ms: closer where they are usual. */
const latenciesMs = [
  ...Array.from({ length: 25 }, (_, n) => 0.2 * n),
  ...Array.from({ length: 15 }, (_, n) => 5 + 0.5 * n),
];

function ofPedal(wiring: Wiring, box: PedalBox): readonly FaultFamily[] {
  const { label, pedal } = box;
  const { additive } = modelOf(pedal.model);
  const found: FaultFamily[] = [];
  const add = (kind: FaultKind, says: string, board: () => Board) =>
    found.push({ kind, id: `${kind} ${label}`, says, where: label, ...whether, board });
  if (box.outputs === 2)
    add("mono-output", `${label} is used by its mono output`, () => asDrawn(byMonoOutput(wiring, box)));
  if (box.fullyWet && additive && pedal.canGoFullyWet)
    add("not-fully-wet", `${label} is not fully wet: its mix stands as in line`, () =>
      asDrawn(withBox(wiring, box, { fullyWet: false })),
    );
  if (!box.fullyWet && additive && Number(pedal.settings.mix) < 1)
    add("no-dry-sound", `${label} is fully wet: its dry sound is missing`, () =>
      asDrawn(withBox(wiring, box, { fullyWet: true })),
    );
  if (pedal.hasFootswitch)
    add("stays-off", `${label} stays off, whatever its footswitch says`, () => ({
      ...asDrawn(wiring),
      stuckOff: new Set([box.id]),
    }));
  found.push({
    kind: "latency",
    id: `latency ${label}`,
    says: `The latency of ${label} is other than stated`,
    where: label,
    wanted: pedal.latencyMs,
    tolerance: 0.15,
    least: 0,
    greatest: Number.POSITIVE_INFINITY,
    finest: 0.5,
    amounts: latenciesMs.filter((ms) => Math.abs(ms - pedal.latencyMs) > 0.15),
    changesNothing: false,
    board: (latencyMs) => asDrawn(withBox(wiring, box, { pedal: { ...pedal, latencyMs } })),
  });
  return found;
}

function byMonoOutput(wiring: Wiring, box: PedalBox): Wiring {
  const [left, right] = outputJacks(box);
  const mono: PedalBox = { ...box, outputs: 1 };
  return {
    boxes: wiring.boxes.map((each) => (each.id === box.id ? mono : each)),
    cables: wiring.cables
      .filter(({ from }) => from.box !== box.id || from.jack !== right)
      .map((cable) =>
        cable.from.box === box.id && cable.from.jack === left
          ? { from: { box: box.id, jack: outputJacks(mono)[0] }, to: cable.to }
          : cable,
      ),
  };
}

function passive(wiring: Wiring, box: SplitterBox): FaultFamily {
  return {
    kind: "passive-split",
    id: `passive-split ${box.label}`,
    says: `A passive Y stands in place of the buffered ${box.label}`,
    where: box.label,
    ...whether,
    board: () => asDrawn(withBox(wiring, box, { buffered: false })),
  };
}

/** How far from the plan a level is tried, dB. */
const levelStepsDb = [-30, -18, -12, -9, -7, -5, -3.5, -2, 2, 3.5, 5, 7, 9, 12, 18];
const pans = [-1, -0.9, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 0.9, 1];

function ofMixer(wiring: Wiring, box: MixerBox): readonly FaultFamily[] {
  return box.inputs.flatMap(({ jack, gainDb, pan }, n): readonly FaultFamily[] => {
    const where = `${box.label}, ${jack}`;
    const set = (changes: Partial<MixerBox["inputs"][number]>) =>
      asDrawn(
        withBox(wiring, box, {
          inputs: box.inputs.map((input, each) => (each === n ? { ...input, ...changes } : input)),
        }),
      );
    return [
      {
        kind: "level",
        id: `level ${where}`,
        says: `What comes in at ${where} stands at the wrong level`,
        where,
        wanted: gainDb,
        tolerance: 1.5,
        least: Number.NEGATIVE_INFINITY,
        greatest: Number.POSITIVE_INFINITY,
        finest: 6,
        amounts: levelStepsDb.map((step) => gainDb + step),
        changesNothing: false,
        board: (amount) => set({ gainDb: amount }),
      },
      {
        kind: "pan",
        id: `pan ${where}`,
        says: `What comes in at ${where} is panned elsewhere`,
        where,
        wanted: pan,
        tolerance: 0.15,
        least: -1,
        greatest: 1,
        finest: 0,
        amounts: pans.filter((each) => Math.abs(each - pan) > 0.2),
        changesNothing: false,
        board: (amount) => set({ pan: amount }),
      },
    ];
  });
}
