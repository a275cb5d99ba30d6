import { count } from "../../../text/numbers.js";
import { wishWords } from "../../../words/wishWords.js";
import type { PageSweep } from "../../../work/sweep/pageSweep.js";
import { settingsWords } from "./knobNames.js";
import { figureWords } from "./measureNames.js";
import type { SweepActions } from "./sweepPlot.js";
import type { SweepPoint } from "./sweepPoints.js";

/** What is seen here, and how to use it. @param points  as many as travel in the page */
export function leadWords(sweep: PageSweep, points: number): string {
  const { settings, routings, results, want } = sweep;
  const of = `${count(settings, "setting")} by ${count(routings.length, "routing")}`;
  const wishes =
    want.length === 0 ? "" : ` Wished: ${wishWords(want).join(", ").replaceAll(" -", " \u2212")}.`;
  const cut =
    points < results
      ? ` Of ${results} results ${points} travel in this page: a coarser grid, and besides it the best and the front. sweep.csv has all.`
      : "";
  return `${of}, as they were swept on the take that the page was made with.${wishes}${cut} Point to a setting to read it; click it, or press Enter, and the rig is set to it and heard.`;
}

/** A point with these measures of it. */
export function pointWords(
  point: SweepPoint,
  measures: readonly string[],
  { nameOf }: Pick<SweepActions, "nameOf">,
): string {
  return [
    `Rank ${point.rank}, setting ${point.setting} of ${nameOf(point.routing)}: ${settingsWords(point)}`,
    measures.map((measure) => figureWords(point, measure)).join(", "),
    ...(point.front ? ["on the front"] : []),
    ...(point.meets === false ? ["misses a wish"] : []),
  ].join("; ");
}
