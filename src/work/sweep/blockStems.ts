import { withUnitsMuted } from "../../rig/wiring/muted.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { CompileOptions } from "../render/compile.js";
import type { Graph } from "../render/graph.js";
import { type Mix, mixKey } from "../render/mix.js";
import { MixCompiler } from "../render/mixCompiler.js";
import { generalProbes } from "./families.js";
import { type GridRigs, wiringFor } from "./gridRigs.js";
import type { StemGains } from "./mixAlgebra.js";
import { type SweepPlan, variantsOf } from "./plan.js";
import type { StemGroup } from "./stemMeter.js";
import { partGains, partsOf } from "./stemParts.js";
import type { SweepBlock } from "./sweepLayout.js";

/** One routing with one set of stems. */
export interface StemTrack {
  readonly structure: number;
  readonly routing: string;
  readonly variant: number;
}

/** The sums of a wiring: left and right; then those of its twin with the units' effect muted, where it has units. */
type Sums = readonly Mix[];

/** Stems of a track: parts of its sums, one list a sum, and all of them, each once. */
interface Stems {
  readonly bySum: readonly (readonly Mix[])[];
  /** Stems of left and right, then those that only the twin needs. */
  readonly all: readonly Mix[];
  readonly full: number;
  /** Muting the effect takes terms out of the sums and changes nothing else, at every setting looked at. */
  readonly twinFollows: boolean;
}

/**
 * The stems of a block, and how each of its settings mixes them. Compiled from the plan alone, so that the thread that
 * renders the stems and those that mix them agree on every signal's number.
 */
export class BlockStems {
  readonly tracks: readonly StemTrack[];
  /** Stems of each track, by their place among the graph's outputs. */
  readonly groups: readonly StemGroup[];
  readonly #plan: SweepPlan;
  readonly #block: SweepBlock;
  readonly #rendered: boolean;
  readonly #compiler: MixCompiler;
  readonly #stems: readonly Stems[];
  readonly #outputs: readonly Mix[];

  constructor(plan: SweepPlan, block: SweepBlock, gridRigs: GridRigs, options: CompileOptions) {
    const { family, structures } = block;
    this.#plan = plan;
    this.#block = block;
    this.#rendered = family.rendered;
    this.#compiler = new MixCompiler(options);
    this.tracks = structures.flatMap((_, structure) =>
      family.routings.flatMap((routing) =>
        Array.from({ length: variantsOf(plan, routing) }, (_, variant) => ({ structure, routing, variant })),
      ),
    );
    this.#stems = this.tracks.map(({ structure, routing, variant }) =>
      stemsOf(
        probesOf(plan, block, structure).map((settings) =>
          this.#sumsOf(wiringFor(gridRigs.withVariant(gridRigs.turned(settings), variant), routing)),
        ),
      ),
    );
    const outputs = new Map(this.#stems.flatMap(({ all }) => all.map((mix) => [mixKey(mix), mix])));
    const places = new Map([...outputs.keys()].map((key, place) => [key, place]));
    this.#outputs = [...outputs.values()];
    this.groups = this.#stems.map(({ all, full }) => {
      const own = all.map((mix) => places.get(mixKey(mix))!);
      return { full: own.slice(0, full), plain: own.slice(full) };
    });
  }

  /** All stems of the block. */
  graph(): Graph {
    return this.#compiler.graphOf(this.#outputs);
  }

  /** Stems of left and right of one track, in their order, and the same to the bit as in the whole graph. */
  graphOf(track: number): Graph {
    return this.#compiler.graphOf(this.groups[track].full.map((place) => this.#outputs[place]));
  }

  /** What the knobs are set to for a set of stems; mixer settings are somewhere in their range. */
  settingsOf(structure: number): Record<string, SettingValue> {
    return probesOf(this.#plan, this.#block, structure)[0];
  }

  /** Gains of a track's stems in a wiring that differs from the track's by mixer settings alone. */
  gainsOf(track: number, wiring: Wiring): StemGains {
    const { all, bySum } = this.#stems[track];
    const sums = this.#rendered
      ? bySum.map(([whole]) => whole ?? [])
      : this.#sumsLike(this.#stems[track], wiring);
    const [left, right, dryLeft, dryRight] = sums.map((sum, n) => {
      const gains = partGains(bySum[n], sum);
      return all.map((stem) => gains[bySum[n].findIndex((part) => mixKey(part) === mixKey(stem))] ?? 0);
    });
    return { left, right, dry: dryLeft && dryRight ? { left: dryLeft, right: dryRight } : null };
  }

  /** As `#sumsOf`, of a wiring like the track's: mostly the twin's sums follow, and need not be worked out. */
  #sumsLike({ bySum: [, , dryLeft, dryRight], twinFollows }: Stems, wiring: Wiring): Sums {
    if (!twinFollows) return this.#sumsOf(wiring);
    const [left, right] = this.#sidesOf(wiring);
    return dryLeft && dryRight
      ? [left, right, onlyOf(dryLeft, left), onlyOf(dryRight, right)]
      : [left, right];
  }

  #sidesOf(wiring: Wiring): Sums {
    const { left, right } = this.#compiler.destinationOf(wiring);
    return [left, right];
  }

  #sumsOf(wiring: Wiring): Sums {
    const muted = withUnitsMuted(wiring);
    return [...this.#sidesOf(wiring), ...(muted ? this.#sidesOf(muted) : [])];
  }
}

/**
 * Stems of sums, from one or several settings: as few as are turned by themselves. From one setting each sum is a stem
 * as it is.
 */
function stemsOf(probes: readonly Sums[]): Stems {
  const [first, ...others] = probes;
  const bySum = first.map((sum, n) => {
    if (others.length > 0) return partsOf(probes.map((sums) => sums[n]));
    return sum.length > 0 ? [sum] : [];
  });
  const full = distinct(bySum.slice(0, 2).flat());
  const all = distinct([...full, ...bySum.slice(2).flat()]);
  return { bySum, all, full: full.length, twinFollows: probes.every(twinFollows) };
}

const twinFollows = ([left, right, dryLeft = [], dryRight = []]: Sums): boolean =>
  isWithin(dryLeft, left) && isWithin(dryRight, right);

const isWithin = (terms: Mix, sum: Mix): boolean =>
  terms.every(({ signal, gain }) => sum.some((term) => term.signal === signal && term.gain === gain));

/** Terms of a sum that belong to some parts. */
const onlyOf = (parts: readonly Mix[], sum: Mix): Mix =>
  sum.filter(({ signal }) => parts.some((part) => part.some((term) => term.signal === signal)));

const distinct = (mixes: readonly Mix[]): Mix[] => [
  ...new Map(mixes.map((mix) => [mixKey(mix), mix])).values(),
];

/** What the knobs are set to for a set of stems; mixer settings are in several general positions. */
function probesOf(
  { groups }: SweepPlan,
  { family, structures }: SweepBlock,
  structure: number,
): Record<string, SettingValue>[] {
  const steps = structures[structure];
  const own = family.structural.flatMap((g, n) =>
    groups[g].map(({ path, values }): [string, SettingValue] => [path, values[steps[n]]]),
  );
  const mixerSettings = groups.filter((_, g) => !family.structural.includes(g));
  const probes = family.rendered ? [{}] : generalProbes(mixerSettings);
  return probes.map((settings) => ({ ...settings, ...Object.fromEntries(own) }));
}
