import { combOf, dryPaths } from "../../rig/wiring/dryPaths.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Comb } from "../../sound/measure/facts.js";
import type { BlockStems } from "./blockStems.js";
import { stepsAt, stepsOf } from "./grid.js";
import { type GridRigs, wiringFor } from "./gridRigs.js";
import type { StemGains } from "./mixAlgebra.js";
import type { SweepPlan } from "./plan.js";
import { SeparableGains } from "./separableGains.js";
import type { SweepBlock } from "./sweepLayout.js";

/** How the settings of one track mix its stems, and where their dry ways meet; found with as few wirings as can be. */
export class TrackMixes {
  readonly #plan: SweepPlan;
  readonly #stems: BlockStems;
  readonly #track: number;
  readonly #gridRigs: GridRigs;
  /** Groups of mixer settings, by their place in the plan. */
  readonly #mixer: readonly number[];
  readonly #general: Readonly<Record<string, SettingValue>>;
  readonly #gains: SeparableGains;
  readonly #mayComb: boolean;

  constructor(plan: SweepPlan, { family }: SweepBlock, stems: BlockStems, track: number, gridRigs: GridRigs) {
    this.#plan = plan;
    this.#stems = stems;
    this.#track = track;
    this.#gridRigs = gridRigs;
    this.#mixer = plan.groups.flatMap((_, g) => (family.structural.includes(g) ? [] : [g]));
    this.#general = stems.settingsOf(stems.tracks[track].structure);
    const general = this.#wiringWith({});
    this.#mayComb = dryPaths(general).some((ways) => ways.length > 1);
    this.#gains = new SeparableGains(
      this.#mixer.length,
      {
        general: () => this.#flat(general),
        one: (group, step) => this.#flat(this.#wiringWith(this.#moved([this.#mixer[group]], () => step))),
        all: (steps) => this.#flat(this.#wiringWith(this.#moved(this.#mixer, (n) => steps[n]))),
      },
      trialsOf(this.#mixer.map((g) => stepsOf(plan.groups[g]))),
    );
  }

  at(place: number): { readonly gains: StemGains; readonly comb: Comb | null } {
    const all = stepsAt(this.#plan.groups, place);
    const steps = this.#mixer.map((g) => all[g]);
    const gains = this.#parted(this.#gains.at(steps));
    // Mixer settings make ways louder or softer, never another way.
    const comb = this.#mayComb ? combOf(this.#wiringWith(this.#moved(this.#mixer, (n) => steps[n]))) : null;
    return { gains, comb };
  }

  #moved(groups: readonly number[], stepOf: (n: number) => number): Record<string, SettingValue> {
    return Object.fromEntries(
      groups.flatMap((g, n) => this.#plan.groups[g].map(({ path, values }) => [path, values[stepOf(n)]])),
    );
  }

  #wiringWith(settings: Readonly<Record<string, SettingValue>>): Wiring {
    const { routing, variant } = this.#stems.tracks[this.#track];
    const rig = this.#gridRigs.turned({ ...this.#general, ...settings });
    return wiringFor(this.#gridRigs.withVariant(rig, variant), routing);
  }

  #flat(wiring: Wiring): readonly number[] {
    const { left, right, dry } = this.#stems.gainsOf(this.#track, wiring);
    return [left, right, ...(dry ? [dry.left, dry.right] : [])].flatMap((gains) => Array.from(gains));
  }

  #parted(flat: readonly number[]): StemGains {
    const { full, plain } = this.#stems.groups[this.#track];
    const all = full.length + plain.length;
    const part = (n: number) => flat.slice(n * all, (n + 1) * all);
    const hasTwin = all > 0 && flat.length > 2 * all;
    return { left: part(0), right: part(1), dry: hasTwin ? { left: part(2), right: part(3) } : null };
  }
}

/** Places at which all groups are moved at once: at their first, last and middle steps, and in turn at either end. */
function trialsOf(counts: readonly number[]): number[][] {
  return [
    counts.map(() => 0),
    counts.map((count) => count - 1),
    counts.map((count) => count >> 1),
    counts.map((count, n) => (n % 2 === 0 ? 0 : count - 1)),
    counts.map((count, n) => (n % 2 === 0 ? count - 1 : count >> 2)),
  ];
}
