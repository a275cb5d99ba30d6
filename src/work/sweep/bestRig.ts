import type { HandBox, HandWiring, Pedal, Rig } from "../../rig/model/rig.js";
import { drawnByHand } from "../../rig/routings/drawnByHand.js";
import { stereoTwin } from "../../rig/routings/otherUnits.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";

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
    { label, ...drawnByHand(wiring, (box) => handPedal(box, pedals)) },
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

const handPedal = ({ pedal, fullyWet }: PedalBox, pedals: PedalNames): HandBox => ({
  box: "pedal",
  pedal: pedals.nameOf(pedal),
  fullyWet,
  settings: {},
});
