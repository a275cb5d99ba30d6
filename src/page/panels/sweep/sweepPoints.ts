import type { SettingValue } from "../../../sound/dsp/kernel.js";
import { settingsAt, stepsAt } from "../../../work/sweep/grid.js";
import type { PageSweep } from "../../../work/sweep/pageSweep.js";

/** One setting of one routing. */
export interface SweepPoint {
  /** As sweep.csv counts it, from 1. */
  readonly setting: number;
  readonly routing: string;
  /** One of an even grid, as against a good one beside it. */
  readonly even: boolean;
  readonly rank: number;
  readonly front: boolean;
  readonly meets: boolean | null;
  /** Step of each group of knobs. */
  readonly steps: readonly number[];
  readonly settings: Readonly<Record<string, SettingValue>>;
  readonly figures: Readonly<Record<string, number | null>>;
}

/** The points of a sweep, the best first. */
export function sweepPoints(sweep: PageSweep): readonly SweepPoint[] {
  const { vary, routings, figures } = sweep;
  const names = Object.keys(figures);
  return sweep.place
    .map((place, n) => ({
      setting: sweep.setting[n],
      routing: routings[sweep.routing[n]],
      even: sweep.even[n] === 1,
      rank: sweep.rank[n],
      front: sweep.front[n] === 1,
      meets: sweep.meets[n] === null ? null : sweep.meets[n] === 1,
      steps: stepsAt(vary, place),
      settings: settingsAt(vary, place),
      figures: Object.fromEntries(names.map((name) => [name, figures[name][n]])),
    }))
    .sort((a, b) => a.rank - b.rank);
}
