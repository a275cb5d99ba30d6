import type { Figure } from "../../sound/measure/measure.js";
import { figureNames, needsRender, widthKept } from "./figures.js";
import type { JudgedResults } from "./judgedResults.js";
import { variantsOf } from "./plan.js";
import type { ResultNumber } from "./results.js";
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
export function spreadOf({ index, wishes }: JudgedResults, result: ResultNumber): Spread | null {
  const { plan } = index.head;
  const { routing, setting } = index.keyOf(result);
  const count = variantsOf(plan, plan.routings[routing]) - 1;
  if (count === 0) return null;
  const draws = Array.from({ length: count }, (_, n) => index.numberOf(routing, setting, n + 1));
  const columns = new Map(spreadNames.map((name): [string, number[]] => [name, []]));
  const note = (name: string, figure: Figure) => {
    if (figure !== null) columns.get(name)?.push(figure);
  };
  index.read(draws, (draw, figures) => {
    figureNames.forEach((name, k) => {
      note(name, figures[k]);
    });
    note(widthKept, index.value(draw, widthKept));
  });
  const sorted = [...columns].map(([name, values]) => [name, Float64Array.from(values).sort()] as const);
  const at = (share: number): Record<string, Figure> =>
    Object.fromEntries(
      sorted.map(([name, values]) => [name, values[Math.round(share * (values.length - 1))] ?? null]),
    );
  const meeting = draws.filter((draw) =>
    wishes.want.every(
      (wish) => needsRender(wish.measure) || isMet(wish, index.value(draw, wish.measure)) === true,
    ),
  ).length;
  return { draws: count, meeting, least: at(0), median: at(0.5), most: at(1) };
}

/** Figures that a spread has. */
export const spreadNames: readonly string[] = [...figureNames, widthKept];
