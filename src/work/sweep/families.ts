import type { AxisGroup } from "../../rig/model/axis.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import { MixCompiler } from "../render/mixCompiler.js";
import { gridSize, placesOf, stepsOf } from "./grid.js";
import { type GridRigs, wiringFor } from "./gridRigs.js";
import type { SweepPlan } from "./plan.js";

/**
 * Routings for which the same knobs are mixer settings: settings that only change the gains with which finished
 * signals are summed at the very end. The other knobs change the signals themselves, the stems.
 */
export interface Family {
  readonly routings: readonly string[];
  /** Groups of knobs, by their place in the plan, that change stems. The rest are mixer settings. */
  readonly structural: readonly number[];
  /** No knob is a mixer setting, or too few settings share their stems: each is rendered by itself. */
  readonly rendered: boolean;
}

/** Stems are shared by at least so many settings on average, or each setting is rendered by itself. */
const leastShared = 2;

/**
 * Finds out which knobs are mixer settings of which routings, from the wirings alone: a knob is one when turning it
 * makes no new signal, and only changes gains at the destination. Rates and lengths do not matter to that.
 */
export function familiesOf(plan: SweepPlan, gridRigs: GridRigs): readonly Family[] {
  const all = plan.groups.map((_, g) => g);
  const places = placesOf(plan.groups, plan.sample, plan.seed).length;
  const families = new Map<string, { routings: string[]; structural: number[]; rendered: boolean }>();
  for (const routing of plan.routings) {
    const changing = all.filter((g) => !isMixerSetting(plan.groups, g, routing, gridRigs));
    const stems = gridSize(changing.map((g) => plan.groups[g]));
    const rendered = places / Math.min(stems, places) < leastShared;
    const structural = rendered ? all : changing;
    const key = `${rendered} ${structural.join(",")}`;
    const family = families.get(key) ?? { routings: [], structural, rendered };
    family.routings.push(routing);
    families.set(key, family);
  }
  return [...families.values()];
}

/** Places within a knob's range, at neither end: nothing is silent or hard over there. */
const generalShare = 0.381966;
const otherShare = 0.618034;
const thirdShare = 0.236068;

/** Settings in general position: all knobs somewhere inside their ranges, then each group elsewhere by itself. */
export function generalProbes(groups: readonly AxisGroup[]): Record<string, SettingValue>[] {
  const general = generalSettings(groups);
  return [
    general,
    ...groups.map((group) => ({ ...general, ...generalSettings([group], otherShare) })),
    generalSettings(groups, thirdShare),
  ];
}

/** Knobs of the given groups somewhere inside their ranges, where every stem that there may be is to be heard. */
function generalSettings(groups: readonly AxisGroup[], share = generalShare): Record<string, SettingValue> {
  return Object.fromEntries(groups.flat().map(({ path, values }) => [path, between(values, share)]));
}

function between(values: readonly SettingValue[], share: number): SettingValue {
  const numbers = values.filter((value) => typeof value === "number");
  if (numbers.length < values.length) return values[0];
  const low = Math.min(...numbers);
  const high = Math.max(...numbers);
  return high > low ? low + share * (high - low) : low;
}

function isMixerSetting(
  groups: readonly AxisGroup[],
  g: number,
  routing: string,
  gridRigs: GridRigs,
): boolean {
  const group = groups[g];
  if (stepsOf(group) < 2) return true;
  if (group.some(({ path, values }) => typeof values[0] !== "number" || gridRigs.isWhole(path))) return false;
  const compiler = new MixCompiler({ rateHz: 48_000 });
  const nodesAt = (share: number) => {
    const others = groups.filter((_, other) => other !== g);
    const settings = { ...wholeAware(others, gridRigs), ...generalSettings([group], share) };
    compiler.destinationOf(wiringFor(gridRigs.turned(settings), routing));
    return compiler.nodeCount;
  };
  const nodes = nodesAt(generalShare);
  return [otherShare, 0, 1].every((share) => nodesAt(share) === nodes);
}

/** As `generalSettings`, but knobs that take whole numbers stay at a value of theirs. */
function wholeAware(groups: readonly AxisGroup[], gridRigs: GridRigs): Record<string, SettingValue> {
  const settings = generalSettings(groups);
  for (const { path, values } of groups.flat()) if (gridRigs.isWhole(path)) settings[path] = values[0];
  return settings;
}
