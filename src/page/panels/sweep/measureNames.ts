import { figureText, isPercent } from "../../../words/figureText.js";
import { wordingOf } from "../../../work/sweep/figures.js";
import { nothing, trueMinus } from "../../widgets/typeset.js";
import type { SweepPoint } from "./sweepPoints.js";

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
  return figure === null ? nothing : trueMinus(figureText(measure, figure));
}

/** "side share 12 %". */
export function figureWords(point: SweepPoint, measure: string): string {
  const { name, unit } = wordingOf(measure);
  const short = unit.startsWith("%") ? "%" : /\d/.test(unit) ? "" : unit;
  return `${name} ${figureCell(point, measure)}${short === "" ? "" : `\u00a0${short}`}`;
}
