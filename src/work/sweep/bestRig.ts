import type { HandBox, HandWiring, Pedal, Rig } from "../../rig/model/rig.js";
import { stereoTwin } from "../../rig/routings/otherUnits.js";
import type { Box, PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import { inputJacks, outputJacks } from "../../rig/wiring/wiring.js";

/** A wiring to hear: under which id and label it is to stand in a rig. */
export interface BestWiring {
  readonly id: string;
  readonly label: string;
  readonly wiring: Wiring;
}

/**
 * A rig in which settings of other rigs stand as wirings drawn by hand, each with its own knobs: so that the best of a
 * sweep can be compared, turned further and kept like any rig. A pedal that is set in several ways is several pedals.
 */
export function bestRig(rig: Rig, best: readonly BestWiring[]): Rig {
  const { sweep: _sweep, ...plain } = rig;
  const pedals = new PedalNames(rig);
  const wirings = best.map(({ id, label, wiring }): [string, HandWiring] => [
    id,
    { label, ...drawnByHand(wiring, pedals) },
  ]);
  return {
    ...plain,
    name: `Best of ${rig.name}`,
    pedals: pedals.all(),
    stereoUnit: {},
    secondUnit: {},
    wirings: Object.fromEntries(wirings),
  };
}

/** Pedals under names of their own, in the order of the rig that they come from. */
class PedalNames {
  /** Every pedal of the rig, and the stereo unit that stands in its place. */
  readonly #order: readonly (readonly string[])[];
  readonly #known = new Map<string, { readonly renamed: Pedal; readonly from: string }>();
  readonly #taken = new Set<string>();

  constructor(rig: Rig) {
    this.#order = rig.pedals.map((pedal) => [pedal.name, stereoTwin(pedal, rig).name]);
  }

  nameOf(pedal: Pedal): string {
    const key = JSON.stringify(pedal);
    const known = this.#known.get(key);
    if (known) return known.renamed.name;
    let name = pedal.name;
    for (let n = 2; this.#taken.has(name.toLowerCase()); n++) name = `${pedal.name} ${n}`;
    this.#taken.add(name.toLowerCase());
    this.#known.set(key, { renamed: { ...pedal, name }, from: pedal.name });
    return name;
  }

  all(): readonly Pedal[] {
    const placeOf = (name: string) => this.#order.findIndex((names) => names.includes(name));
    return [...this.#known.values()]
      .sort((a, b) => placeOf(a.from) - placeOf(b.from))
      .map(({ renamed }) => renamed);
  }
}

function drawnByHand({ boxes, cables }: Wiring, pedals: PedalNames): Omit<HandWiring, "label"> {
  const ids = new Map<string, string>();
  const byId = new Map(boxes.map((box) => [box.id, box]));
  for (const { id, kind } of boxes) {
    ids.set(id, kind === "take" || kind === "destination" ? kind : freeId(id, [...ids.values()]));
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
        const hand = handBox(box, pedals);
        return hand ? [[ids.get(box.id)!, hand]] : [];
      }),
    ),
    cables: cables.map(({ from, to }) => ({
      from: end(from.box, from.jack, outputJacks),
      to: end(to.box, to.jack, inputJacks),
    })),
  };
}

function handBox(box: Box, pedals: PedalNames): HandBox | null {
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
      return handPedal(box, pedals);
  }
}

const handPedal = ({ pedal, fullyWet }: PedalBox, pedals: PedalNames): HandBox => ({
  box: "pedal",
  pedal: pedals.nameOf(pedal),
  fullyWet,
  settings: {},
});

/** A box's id in small letters, digits and hyphens, at most 40, unlike those taken. */
function freeId(id: string, taken: readonly string[]): string {
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
