import type { Measures } from "../../../sound/measure/measures.js";
import type { RoutingReport } from "../../../work/compare/report.js";
import { type RoutingMark, routingMark } from "../../widgets/routingMark.js";
import { choiceKey } from "../choiceKey.js";
import { reportOf, type View } from "../view.js";

/** A routing as the plots draw it. */
export interface Series {
  readonly id: string;
  readonly label: string;
  readonly mark: RoutingMark;
  readonly measures: Measures;
  readonly routing: RoutingReport;
  readonly isReference: boolean;
  /** By which a short label names it: its key, or its place. */
  readonly number: string;
  /** Drawn strong: it is heard now. */
  readonly isChosen: boolean;
  /** What it is drawn in: its own colour, or grey while another is heard. */
  readonly ink: string;
}

/** What plots are drawn from: the view, and the routings that they leave out, by id. */
export interface PlotView extends View {
  readonly hidden: ReadonlySet<string>;
}

/** Every routing that was measured, in order. */
export function allSeries(view: View): readonly Series[] {
  const { routings, reference } = reportOf(view);
  const { chosen, choices } = view.bench.player;
  const ids = routings.map(({ id }) => id);
  const isOneHeard = routings.some(({ id, measures }) => id === chosen && measures !== null);
  return routings.flatMap((routing, n) => {
    const { id, label, measures } = routing;
    if (!measures) return [];
    const mark = routingMark(id, ids);
    const isChosen = chosen === id;
    const ink = isOneHeard && !isChosen ? "var(--quiet)" : mark.colour;
    const number = choiceKey(choices, id) ?? String(n + 1);
    return [{ id, label, mark, measures, routing, number, isReference: id === reference, isChosen, ink }];
  });
}

/** Those that are not left out. The chosen one comes last, to be drawn on top. */
export function shownSeries(view: PlotView): readonly Series[] {
  const shown = allSeries(view).filter(({ id }) => !view.hidden.has(id));
  return [...shown.filter(({ isChosen }) => !isChosen), ...shown.filter(({ isChosen }) => isChosen)];
}

/** The label, marked where it is the reference. */
export const seriesName = ({ label, isReference }: Pick<Series, "label" | "isReference">): string =>
  isReference ? `${label} (reference)` : label;

/** The series with the smallest value; null when there is none. */
export function least(
  series: readonly Series[],
  figure: (measures: Measures) => number | null,
): { readonly series: Series; readonly value: number } | null {
  let best: { series: Series; value: number } | null = null;
  for (const one of series) {
    const value = figure(one.measures);
    if (value !== null && (best === null || value < best.value)) best = { series: one, value };
  }
  return best;
}

/** The series with the largest value; null when there is none. */
export function largest(
  series: readonly Series[],
  figure: (measures: Measures) => number | null,
): { readonly series: Series; readonly value: number } | null {
  const found = least(series, (measures) => {
    const value = figure(measures);
    return value === null ? null : -value;
  });
  return found && { series: found.series, value: -found.value };
}
