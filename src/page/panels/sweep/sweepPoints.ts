import type { SettingValue } from "../../../sound/dsp/kernel.js";
import { trimmed } from "../../../text/numbers.js";
import { figureText, isPercent } from "../../../words/figureText.js";
import { wordingOf } from "../../../work/sweep/figures.js";
import { settingsAt, stepsAt } from "../../../work/sweep/grid.js";
import type { PageSweep } from "../../../work/sweep/pageSweep.js";
import { settingName } from "../../widgets/settingName.js";
import { nothing } from "../../widgets/typeset.js";

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

/** "loss in mono (dB)". */
export function measureTitle(measure: string): string {
  const { name, unit } = wordingOf(measure);
  return unit === "" ? name : `${name} (${unit})`;
}

/** A figure as it is drawn: shares in per cent. */
export function drawnFigure({ figures }: SweepPoint, measure: string): number | null {
  const figure = figures[measure] ?? null;
  return figure !== null && isPercent(measure) ? 100 * figure : figure;
}

/** "0.8", without its unit. */
export function figureCell({ figures }: SweepPoint, measure: string): string {
  const figure = figures[measure] ?? null;
  return figure === null ? nothing : withMinus(figureText(measure, figure));
}

/** "side share 12 %". */
export function figureWords(point: SweepPoint, measure: string): string {
  const { name, unit } = wordingOf(measure);
  const short = unit.startsWith("%") ? "%" : /\d/.test(unit) ? "" : unit;
  return `${name} ${figureCell(point, measure)}${short === "" ? "" : `\u00a0${short}`}`;
}

/** "mixer return"; "Boiler tank mix". */
export function knobName(path: string): { readonly name: string; readonly unit: string } {
  const dot = path.lastIndexOf(".");
  const { name, unit } = settingName(path.slice(dot + 1));
  return { name: `${path.slice(0, dot)} ${name}`, unit };
}

/** "mixer return (dB)". */
export function knobTitle(path: string): string {
  const { name, unit } = knobName(path);
  return unit === "" ? name : `${name} (${unit})`;
}

export const valueText = (value: SettingValue): string =>
  typeof value === "number" ? withMinus(trimmed(value, 3)) : String(value);

/** "mixer return −12 dB, mixer return pan 0". */
export function settingsWords({ settings }: SweepPoint): string {
  return Object.entries(settings)
    .map(([path, value]) => {
      const { name, unit } = knobName(path);
      return `${name} ${valueText(value)}${unit === "" ? "" : `\u00a0${unit}`}`;
    })
    .join(", ");
}

const withMinus = (text: string): string => text.replace(/^-/, "\u2212");
