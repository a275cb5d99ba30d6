import type { Figure } from "../../sound/measure/measure.js";
import type { ResultsHead } from "./resultsHead.js";

/** A result's number: routings in order, in each the settings, in each the draws. */
export type ResultNumber = number;

/** The results of a sweep as judging and ranking see them, wherever they lie. */
export interface SweepResults {
  readonly head: ResultsHead;
  readonly settings: number;
  /** Places of the grid, one a setting. */
  readonly places: Float64Array;
  /** Results in all, draws among them. */
  readonly total: number;
  /** Figures of settings that were rendered by themselves, by result. */
  readonly rendered: ReadonlyMap<ResultNumber, readonly Figure[]>;
  numberOf(routing: number, setting: number, draw?: number): ResultNumber;
  /** Results that are judged, as far as they are there: every routing at every setting, draws left out. */
  judged(): ResultNumber[];
  keyOf(result: ResultNumber): { routing: number; setting: number; draw: number };
  byAlgebra(result: ResultNumber): boolean;
  /** A kept figure, or `widthKept`. */
  value(result: ResultNumber, name: string): Figure;
  /** Gives all figures of results, in the order of the head's names. */
  read(
    results: Iterable<ResultNumber>,
    visit: (result: ResultNumber, figures: readonly Figure[]) => void,
  ): void;
  /** The same, with the figures as the text of a JSON list. */
  readTexts(results: Iterable<ResultNumber>, visit: (result: ResultNumber, figures: string) => void): void;
}
