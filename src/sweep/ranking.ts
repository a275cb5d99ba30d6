import { renderedFigures } from "./figures.js";
import { frontOf } from "./front.js";
import type { ResultIndex, ResultNumber } from "./resultIndex.js";
import { type Aim, isMet, measuresOf, type Wish, type Wishes } from "./wishes.js";

/** How one result stands to the wishes. */
export interface Verdict {
  readonly missed: readonly Wish[];
  /** Wishes that only a render could tell, of a setting that was not rendered. */
  readonly open: readonly Wish[];
}

const clear: Verdict = { missed: [], open: [] };

export interface Ranking {
  /** Judged results, the best first. */
  readonly order: readonly ResultNumber[];
  readonly verdicts: ReadonlyMap<ResultNumber, Verdict>;
  /** On the trade-off front, or the result that is better in every aim; of those that meet all wishes, or of all. */
  readonly beatenBy: ReadonlyMap<ResultNumber, ResultNumber | null>;
  /** Results that meet every wish; those with open wishes are not among them. */
  readonly meeting: number;
}

/** Figures that ranking must have at hand. */
export const figuresToKeep = (wishes: Wishes): string[] => [...measuresOf(wishes), "truePeakAtMostDbtp"];

/**
 * Ranks results: those that miss fewer wishes first, then by the aims, the first one first, then in the order of the
 * plan. Nothing in it depends on which other results there are, so that the best of a whole are among the best of its
 * parts.
 * @param settled  results whose renders count; of the others, wishes that take a render stay open
 */
export function rank(index: ResultIndex, wishes: Wishes, settled: ReadonlySet<ResultNumber>): Ranking {
  const judged = index.judged();
  const verdicts = new Map(judged.map((result) => [result, judge(index, wishes, result, settled)]));
  const scores = new Map(judged.map((result) => [result, scoresOf(index, wishes.aims, result)]));
  const order = judged.sort(
    (a, b) =>
      verdicts.get(a)!.missed.length - verdicts.get(b)!.missed.length ||
      firstDifference(scores.get(b)!, scores.get(a)!) ||
      a - b,
  );
  const isMeeting = (result: ResultNumber) => {
    const { missed, open } = verdicts.get(result)!;
    return missed.length === 0 && open.length === 0;
  };
  const meeting = order.filter(isMeeting);
  const contenders = meeting.length > 0 ? meeting : order;
  const beaten = frontOf(contenders.map((result) => scores.get(result)!));
  const beatenBy = new Map(
    contenders.map((result, n) => {
      const by = beaten[n];
      return [result, by === null ? null : contenders[by]] as const;
    }),
  );
  return { order, verdicts, beatenBy, meeting: meeting.length };
}

function judge(
  index: ResultIndex,
  { want }: Wishes,
  result: ResultNumber,
  settled: ReadonlySet<ResultNumber>,
): Verdict {
  const missed: Wish[] = [];
  const open: Wish[] = [];
  for (const wish of want) {
    const met = isMetBy(index, wish, result, settled);
    if (met === "open") open.push(wish);
    else if (!met) missed.push(wish);
  }
  return missed.length + open.length === 0 ? clear : { missed, open };
}

function isMetBy(
  index: ResultIndex,
  wish: Wish,
  result: ResultNumber,
  settled: ReadonlySet<ResultNumber>,
): boolean | "open" {
  const { measure } = wish;
  const known = index.value(result, measure);
  if (known !== null || !renderedFigures.has(measure)) return isMet(wish, known) ?? false;
  const render = settled.has(result) ? index.rendered.get(result) : undefined;
  if (render) return isMet(wish, render[index.head.figureNames.indexOf(measure)]) ?? false;
  // No true peak is above its bound: a limit above the bound is kept without a look.
  const bound = measure === "truePeakDbtp" ? index.value(result, "truePeakAtMostDbtp") : null;
  return bound !== null && wish.is.startsWith("<") && isMet(wish, bound) === true ? true : "open";
}

/** More is better in each; a figure that does not exist is the worst. */
function scoresOf(index: ResultIndex, aims: readonly Aim[], result: ResultNumber): number[] {
  return aims.map(({ measure, better }) => {
    const value = index.value(result, measure);
    if (value === null) return Number.NEGATIVE_INFINITY;
    return better === "more" ? value : -value;
  });
}

function firstDifference(a: readonly number[], b: readonly number[]): number {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k] < b[k] ? -1 : 1;
  return 0;
}
