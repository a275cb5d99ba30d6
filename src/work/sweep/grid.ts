import type { AxisGroup } from "../../rig/model/axis.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import { Xorshift } from "../../sound/dsp/xorshift.js";

/** Steps of a group: its knobs have as many values each. */
export const stepsOf = (group: AxisGroup): number => group[0]?.values.length ?? 1;

/** Settings of a grid: every step of each group with every step of the others. */
export const gridSize = (groups: readonly AxisGroup[]): number =>
  groups.reduce((size, group) => size * stepsOf(group), 1);

/** Step of each group at a place of the grid; the last group turns fastest. */
export function stepsAt(groups: readonly AxisGroup[], place: number): number[] {
  const steps = groups.map(() => 0);
  let rest = place;
  for (let g = groups.length - 1; g >= 0; g--) {
    const count = stepsOf(groups[g]);
    steps[g] = rest % count;
    rest = Math.floor(rest / count);
  }
  return steps;
}

/** What each knob is turned to at a place of the grid, by its path. */
export function settingsAt(groups: readonly AxisGroup[], place: number): Record<string, SettingValue> {
  const steps = stepsAt(groups, place);
  return Object.fromEntries(
    groups.flatMap((group, g) => group.map(({ path, values }) => [path, values[steps[g]]])),
  );
}

/**
 * Places of the grid that a sweep goes to, in rising order: all, or `sample` different ones by chance, the same for a
 * seed on every machine.
 * Source: R. W. Floyd, in Bentley and Floyd, "Programming pearls: a sample of brilliance", CACM 30(9), 1987.
 */
export function placesOf(groups: readonly AxisGroup[], sample: number | null, seed: number): Float64Array {
  const size = gridSize(groups);
  if (sample === null || sample >= size) return Float64Array.from({ length: size }, (_, n) => n);
  const numbers = new Xorshift(seed);
  // Two numbers of 32 bits make one of 53: grids may be larger than 2^32.
  const upTo = (count: number) =>
    Math.floor(((Math.floor((numbers.next() + 0.5) * 2 ** 21) + (numbers.next() + 0.5)) / 2 ** 21) * count);
  const chosen = new Set<number>();
  for (let last = size - sample; last < size; last++) {
    const place = Math.min(last, upTo(last + 1));
    chosen.add(chosen.has(place) ? last : place);
  }
  return Float64Array.from(chosen).sort();
}
