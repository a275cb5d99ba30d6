import { withUnitsMuted } from "../compare/muted.js";
import type { SettingValue } from "../dsp/kernel.js";
import type { CompileOptions } from "../render/compile.js";
import type { Graph } from "../render/graph.js";
import { type Mix, mixKey } from "../render/mix.js";
import { type DestinationMixes, MixCompiler } from "../render/mixCompiler.js";
import type { Wiring } from "../wiring/wiring.js";
import { generalSettings } from "./families.js";
import type { SweepBlock } from "./layout.js";
import type { StemGains } from "./mixAlgebra.js";
import { type SweepPlan, variantsOf } from "./plan.js";
import type { StemGroup } from "./stemMeter.js";
import { type Tuner, wiringFor } from "./tuner.js";

/** One routing with one set of stems. */
export interface Track {
  readonly structure: number;
  readonly routing: string;
  readonly variant: number;
}

/** A wiring and its twin with the units' effect muted, as what reaches the destination. */
interface Sums {
  readonly full: DestinationMixes;
  readonly dry: DestinationMixes | null;
}

/**
 * The stems of a block, and how each of its settings mixes them. Compiled from the plan alone, so that the thread that
 * renders the stems and those that mix them agree on every signal's number.
 */
export class BlockStems {
  readonly tracks: readonly Track[];
  /** Signals that each track's measures need, by their place among the graph's outputs. */
  readonly groups: readonly StemGroup[];
  readonly #compiler: MixCompiler;
  readonly #rendered: boolean;
  readonly #outputs = new Map<string, { readonly mix: Mix; readonly place: number }>();
  readonly #sums: readonly Sums[];

  constructor(plan: SweepPlan, block: SweepBlock, tuner: Tuner, options: CompileOptions) {
    const { family, structures } = block;
    this.#compiler = new MixCompiler(options);
    this.#rendered = family.rendered;
    this.tracks = structures.flatMap((_, structure) =>
      family.routings.flatMap((routing) =>
        Array.from({ length: variantsOf(plan, routing) }, (_, variant) => ({ structure, routing, variant })),
      ),
    );
    this.#sums = this.tracks.map(({ structure, routing, variant }) => {
      const rig = tuner.turned(structureSettings(plan, block, structure));
      return this.#sumsOf(wiringFor(tuner.withVariant(rig, variant), routing));
    });
    this.groups = this.#sums.map((sums) => this.#groupOf(sums));
  }

  graph(): Graph {
    return this.#compiler.graphOf([...this.#outputs.values()].map(({ mix }) => mix));
  }

  /** Gains of a track's stems in a wiring that differs from the track's by mixer settings alone. */
  gainsOf(track: number, wiring: Wiring): StemGains {
    const { full: stems, plain } = this.groups[track];
    const all = [...stems, ...plain];
    const { full, dry } = this.#rendered ? this.#sums[track] : this.#sumsOf(wiring);
    const sides = ({ left, right }: DestinationMixes, signals: readonly number[]) => ({
      left: this.#gains(left, signals),
      right: this.#gains(right, signals),
    });
    return { ...sides(full, stems), dry: dry && sides(dry, all) };
  }

  #sumsOf(wiring: Wiring): Sums {
    const muted = withUnitsMuted(wiring);
    return {
      full: this.#compiler.destinationOf(wiring),
      dry: muted && this.#compiler.destinationOf(muted),
    };
  }

  #groupOf({ full, dry }: Sums): StemGroup {
    const stems = this.#placesOf(full);
    const others = dry ? this.#placesOf(dry) : [];
    return { full: stems, plain: others.filter((place) => !stems.includes(place)) };
  }

  /** Outputs that a destination is made of: its two sides as they are, or the signals that are summed there. */
  #placesOf({ left, right }: DestinationMixes): number[] {
    const mixes = this.#rendered ? [left, right] : [...left, ...right].map(({ signal }) => alone(signal));
    return [...new Set(mixes.filter((mix) => mix.length > 0).map((mix) => this.#placeOf(mix)))];
  }

  #placeOf(mix: Mix): number {
    const key = mixKey(mix);
    const known = this.#outputs.get(key) ?? { mix, place: this.#outputs.size };
    this.#outputs.set(key, known);
    return known.place;
  }

  #gains(mix: Mix, places: readonly number[]): Float64Array {
    const gains = new Float64Array(places.length);
    const parts = this.#rendered && mix.length > 0 ? [{ mix, gain: 1 }] : termsOf(mix);
    for (const part of parts) {
      const place = this.#outputs.get(mixKey(part.mix))?.place;
      const at = place === undefined ? -1 : places.indexOf(place);
      if (at < 0) throw new Error("a setting needs a signal that is none of its stems");
      gains[at] += part.gain;
    }
    return gains;
  }
}

const alone = (signal: number): Mix => [{ signal, gain: 1 }];
const termsOf = (mix: Mix) => mix.map(({ signal, gain }) => ({ mix: alone(signal), gain }));

/** What the knobs are set to for a set of stems; mixer settings are somewhere in their range. */
function structureSettings(
  { groups }: SweepPlan,
  { family, structures }: SweepBlock,
  structure: number,
): Record<string, SettingValue> {
  const steps = structures[structure];
  const own = family.structural.flatMap((g, n) =>
    groups[g].map(({ path, values }): [string, SettingValue] => [path, values[steps[n]]]),
  );
  const mixerSettings = groups.filter((_, g) => !family.structural.includes(g));
  return { ...generalSettings(mixerSettings), ...Object.fromEntries(own) };
}
