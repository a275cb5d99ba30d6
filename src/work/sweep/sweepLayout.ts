import type { AxisGroup } from "../../rig/model/axis.js";
import type { Family } from "./families.js";
import { placesOf, stepsAt, stepsOf } from "./grid.js";
import { type SweepPlan, variantsOf } from "./plan.js";

/** Settings of a family whose stems are rendered together, in one graph: what is alike is computed once. */
export interface SweepBlock {
  readonly family: Family;
  /** Steps of the family's structural groups, one entry a set of stems. */
  readonly structures: readonly (readonly number[])[];
}

/** A piece of the work that is done whole or not at all: some settings of a block, by every routing of its family. */
export interface Unit {
  readonly block: SweepBlock;
  readonly blockNumber: number;
  /** Settings, counted from 0; for each its place in the grid, and its set of stems in the block. */
  readonly settings: readonly number[];
  readonly places: readonly number[];
  readonly structureOf: readonly number[];
  /** How many results it gives: settings by routings, draws among them. */
  readonly results: number;
}

/** The whole sweep in pieces. They depend on the plan and the number of parts alone, so that any share of them gives the same results. */
export interface SweepLayout {
  readonly families: readonly Family[];
  /** Places of the grid, one a setting. */
  readonly places: Float64Array;
  readonly units: readonly Unit[];
}

/** Results that a unit holds at the most. */
const mostResults = 512;
/** Renders that run in one graph at the most, and seconds of them in all: what bounds a thread's memory. */
const mostTracks = 64;
const mostTrackSeconds = 8000;
const mostStructures = 8;

/**
 * @param parts  in which the sweep is shared out: units are small enough that there is one for each, if there are as
 *   many settings; parts of settings that share stems render those stems each
 */
export function layoutOf(
  plan: SweepPlan,
  families: readonly Family[],
  rateHz: number,
  parts = 1,
): SweepLayout {
  const places = placesOf(plan.groups, plan.sample, plan.seed);
  const units: Unit[] = [];
  let blockNumber = 0;
  for (const family of families) {
    const tracks = family.routings.reduce((sum, routing) => sum + variantsOf(plan, routing), 0);
    const room = Math.min(mostTracks, (mostTrackSeconds * rateHz) / Math.max(1, plan.frames));
    const perBlock = Math.max(1, Math.min(mostStructures, Math.floor(room / tracks)));
    const perUnit = Math.max(1, Math.min(Math.floor(mostResults / tracks), Math.ceil(places.length / parts)));
    const sets = bySets(plan.groups, family, places);
    for (let first = 0; first < sets.length; first += perBlock) {
      const members = sets.slice(first, first + perBlock);
      const block = { family, structures: members.map(({ steps }) => steps) };
      const settings = members.flatMap((set) => set.settings);
      const structureOf = members.flatMap((set, n) => set.settings.map(() => n));
      for (let from = 0; from < settings.length; from += perUnit) {
        const own = settings.slice(from, from + perUnit);
        units.push({
          block,
          blockNumber,
          settings: own,
          places: own.map((setting) => places[setting]),
          structureOf: structureOf.slice(from, from + perUnit),
          results: own.length * tracks,
        });
      }
      blockNumber++;
    }
  }
  return { families, places, units };
}

/** Fixed part `shard` of `of`, from 1: consecutive units, as even as whole units allow. */
export function unitsOfShard(layout: SweepLayout, shard: Shard | null): readonly number[] {
  const all = layout.units.map((_, n) => n);
  if (shard === null) return all;
  const edge = (part: number) => Math.floor((part * all.length) / shard.of);
  return all.slice(edge(shard.part - 1), edge(shard.part));
}

export interface Shard {
  readonly part: number;
  readonly of: number;
}

interface SetOfStems {
  readonly steps: readonly number[];
  readonly settings: number[];
}

/** Settings by the stems that they share, both in rising order. */
function bySets(groups: readonly AxisGroup[], { structural }: Family, places: Float64Array): SetOfStems[] {
  const sets = new Map<number, SetOfStems>();
  places.forEach((place, setting) => {
    const steps = stepsAt(groups, place);
    const own = structural.map((g) => steps[g]);
    const key = structural.reduce((sum, g) => sum * stepsOf(groups[g]) + steps[g], 0);
    const set = sets.get(key) ?? { steps: own, settings: [] };
    set.settings.push(setting);
    sets.set(key, set);
  });
  return [...sets].sort(([a], [b]) => a - b).map(([, set]) => set);
}
