import { fixed, percent, signed } from "../text/numbers.js";
import type { Figure } from "../work/sweep/figures.js";

/** Measures that are told in per cent. */
export const percents: ReadonlySet<string> = new Set(["sideShare", "widthKept", "correlationShareBelowZero"]);

/** A figure as a person reads it, without its unit. */
export function figureText(measure: string, figure: Figure): string {
  if (percents.has(measure)) return percent(figure);
  if (measure === "balanceDb" || measure === "tiltDbPerOctave") return signed(figure, 1);
  if (measure.endsWith("Hz")) return fixed(figure, 0);
  return fixed(figure, /(Db|Lufs|Lu|Dbtp|Dbfs)$/.test(measure) ? 1 : 2);
}
