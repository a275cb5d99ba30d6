import { type Figure, figureNames, namedFigures, renderedFigures } from "./figures.js";
import type { Judged } from "./judged.js";
import { variantsOf } from "./plan.js";
import type { ResultNumber } from "./resultIndex.js";
import { isMet } from "./wishes.js";

/** What the second units of all draws make of a setting. */
export interface Spread {
  readonly draws: number;
  /** Draws that meet every wish that can be judged without a render. */
  readonly meeting: number;
  readonly least: Readonly<Record<string, Figure>>;
  readonly median: Readonly<Record<string, Figure>>;
  readonly most: Readonly<Record<string, Figure>>;
}

/** What the draws of a setting make of every figure; null where there are none. */
export function spreadOf({ index, wishes }: Judged, result: ResultNumber): Spread | null {
  const { plan } = index.head;
  const { routing, setting } = index.keyOf(result);
  const variants = variantsOf(plan, plan.routings[routing]);
  if (variants < 2) return null;
  const rows: (readonly Figure[])[] = [];
  const draws = Array.from({ length: variants - 1 }, (_, n) => index.numberOf(routing, setting, n + 1));
  index.read(draws, (_, figures) => rows.push(figures));
  const sorted = figureNames.map((_, k) => {
    const values = rows.map((row) => row[k]).filter((value) => value !== null);
    return Float64Array.from(values).sort();
  });
  const at = (share: number) =>
    namedFigures(
      sorted.map((values) => (values.length > 0 ? values[Math.round(share * (values.length - 1))] : null)),
    );
  const meeting = rows.filter((row) =>
    wishes.want.every((wish) => {
      const k = figureNames.indexOf(wish.measure);
      return k < 0 || renderedFigures.has(wish.measure) || isMet(wish, row[k]) === true;
    }),
  ).length;
  return { draws: rows.length, meeting, least: at(0), median: at(0.5), most: at(1) };
}
