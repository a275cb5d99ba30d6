import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Figure } from "../../sound/measure/measure.js";
import { figureNames, needsRender } from "./figures.js";
import { settingsAt } from "./grid.js";
import type { Ranking } from "./ranking.js";
import type { ResultNumber, SweepResults } from "./results.js";
import type { Wish, Wishes } from "./wishes.js";

/** Judged results of a sweep, as tables and files show them. */
export class JudgedResults {
  readonly index: SweepResults;
  readonly wishes: Wishes;
  readonly ranking: Ranking;
  readonly settled: ReadonlySet<ResultNumber>;

  constructor(
    index: SweepResults,
    wishes: Wishes,
    { ranking, settled }: { ranking: Ranking; settled: ReadonlySet<ResultNumber> },
  ) {
    this.index = index;
    this.wishes = wishes;
    this.ranking = ranking;
    this.settled = settled;
  }

  settingsOf(result: ResultNumber): Record<string, SettingValue> {
    const { places, head } = this.index;
    return settingsAt(head.plan.groups, places[this.index.keyOf(result).setting]);
  }

  meets(result: ResultNumber): boolean | null {
    if (this.ranking.missed(result).length > 0) return false;
    return this.ranking.open(result).length > 0 ? null : true;
  }

  isOnFront(result: ResultNumber): boolean {
    return this.ranking.isOnFront(result);
  }

  /** Why a result is not among the best there are, in one line; null for those on the front. */
  fellOut(result: ResultNumber): string | null {
    const missed = this.ranking.missed(result);
    const open = this.ranking.open(result);
    if (missed.length > 0) {
      return missed
        .map((wish) => `${wish.measure} is ${this.#found(result, wish)}, wanted ${wish.is}${wish.limit}`)
        .join("; ");
    }
    if (open.length > 0)
      return `not rendered, so not known: ${open.map(({ measure }) => measure).join(", ")}`;
    const better = this.ranking.beatenBy(result);
    if (better === null) return null;
    const { routing, setting } = this.index.keyOf(better);
    return `setting ${setting + 1} of ${this.index.head.plan.routings[routing]} is better in every chosen measure, or as good`;
  }

  /** Figures, as the text of a JSON list, with those that only the render of a settled result tells. */
  completed(result: ResultNumber, text: string): string {
    const render = this.settled.has(result) ? this.index.rendered.get(result) : undefined;
    if (!render) return text;
    const figures: readonly Figure[] = JSON.parse(text);
    return JSON.stringify(completed(figures, render));
  }

  #found(result: ResultNumber, { measure }: Wish): string {
    const known = this.index.value(result, measure);
    const render = this.settled.has(result) ? this.index.rendered.get(result) : undefined;
    const value = known ?? render?.[figureNames.indexOf(measure)] ?? null;
    return value === null ? "undefined" : String(Number(value.toPrecision(4)));
  }
}

/** Figures with those of a render in the place of what the algebra does not tell. */
export const completed = (figures: readonly Figure[], render: readonly Figure[]): Figure[] =>
  figures.map((figure, k) => (figure === null && needsRender(figureNames[k]) ? render[k] : figure));
