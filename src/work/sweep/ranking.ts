import { boundOf, needsRender } from "./figures.js";
import { compareScores, markFront, onFront } from "./front.js";
import type { ResultNumber, SweepResults } from "./results.js";
import { isMet, type Wish, type Wishes, wishedMeasures } from "./wishes.js";

/** Figures that ranking must have at hand. */
export const figuresToKeep = (wishes: Wishes): string[] =>
  wishedMeasures(wishes).flatMap((measure) => [measure, boundOf(measure)].filter((name) => name !== null));

/** Not judged, or not among those that the front is made of. */
const noContender = -2;

/**
 * Judged results in order: those that miss fewer wishes first, then by the aims, the first one first, then in the order
 * of the plan. Nothing in it depends on which other results there are, so that the best of a whole are among the best
 * of its parts. Memory: twenty bytes a result, and eight an aim.
 */
export class Ranking {
  /** The best first. */
  readonly order: readonly ResultNumber[];
  /** Results that meet every wish; those of which a wish is open are not among them. */
  readonly meeting: number;
  readonly #wishes: Wishes;
  /** A bit a wish. */
  readonly #missed: Uint32Array;
  readonly #open: Uint32Array;
  readonly #beatenBy: Int32Array;

  /** @param settled  results whose renders count; of the others, wishes that take a render stay open */
  constructor(index: SweepResults, wishes: Wishes, settled: ReadonlySet<ResultNumber>) {
    const { want, aims } = wishes;
    const scores = new Float64Array(index.total * aims.length);
    this.#wishes = wishes;
    this.#missed = new Uint32Array(index.total);
    this.#open = new Uint32Array(index.total);
    this.#beatenBy = new Int32Array(index.total).fill(noContender);
    const judged = index.judged();
    for (const result of judged) {
      want.forEach((wish, n) => {
        const met = isMetBy(index, wish, result, settled);
        if (met === "open") this.#open[result] |= 1 << n;
        else if (!met) this.#missed[result] |= 1 << n;
      });
      aims.forEach(({ measure, better }, k) => {
        const value = index.value(result, measure);
        const score = value === null ? Number.NEGATIVE_INFINITY : better === "more" ? value : -value;
        scores[result * aims.length + k] = score;
      });
    }
    const misses = (result: ResultNumber) => bits(this.#missed[result]);
    this.order = judged.sort(
      (a, b) => misses(a) - misses(b) || compareScores(scores, aims.length, b, a) || a - b,
    );
    const meeting = this.order.filter((result) => this.#missed[result] === 0 && this.#open[result] === 0);
    this.meeting = meeting.length;
    markFront(meeting.length > 0 ? meeting : this.order, scores, aims.length, this.#beatenBy);
  }

  missed(result: ResultNumber): readonly Wish[] {
    return this.#wishes.want.filter((_, n) => this.#missed[result] & (1 << n));
  }

  /** Wishes that only a render could tell, of a result that was not rendered. */
  open(result: ResultNumber): readonly Wish[] {
    return this.#wishes.want.filter((_, n) => this.#open[result] & (1 << n));
  }

  /** Of those that meet all wishes (or of all, when none does): no other is better in every aim. */
  isOnFront(result: ResultNumber): boolean {
    return this.#beatenBy[result] === onFront;
  }

  /** A result on the front that is better; null for those on it, and those that miss a wish. */
  beatenBy(result: ResultNumber): ResultNumber | null {
    const by = this.#beatenBy[result];
    return by >= 0 ? by : null;
  }
}

function isMetBy(
  index: SweepResults,
  wish: Wish,
  result: ResultNumber,
  settled: ReadonlySet<ResultNumber>,
): boolean | "open" {
  const { measure } = wish;
  const known = index.value(result, measure);
  if (known !== null || !needsRender(measure)) return isMet(wish, known) ?? false;
  const render = settled.has(result) ? index.rendered.get(result) : undefined;
  if (render) return isMet(wish, render[index.head.figureNames.indexOf(measure)]) ?? false;
  // No figure is above its bound: a limit above the bound is kept without a look.
  const atMost = boundOf(measure);
  const bound = atMost === null ? null : index.value(result, atMost);
  return bound !== null && wish.is.startsWith("<") && isMet(wish, bound) === true ? true : "open";
}

function bits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count++;
  return count;
}
