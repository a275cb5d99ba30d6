import type { Figure, Format } from "../sound/measure/measure.js";
import { fixed, frequency, noFigure, percent, signed } from "../text/numbers.js";
import { wordingOf } from "../work/sweep/figures.js";

/** A number as its measure is written, without its unit. */
export function formatted(value: number | null, format: Format): string {
  if (format === "percent") return percent(value);
  if (format === "frequency") return value === null ? noFigure : frequency(value);
  return "signed" in format ? signed(value, format.signed) : fixed(value, format.fixed);
}

export const figureText = (measure: string, figure: Figure): string =>
  formatted(figure, wordingOf(measure).format);

/** True for what is told in per cent. */
export const isPercent = (measure: string): boolean => wordingOf(measure).format === "percent";
