import { plainWords } from "../../../words/plainWords.js";
import { table } from "../../widgets/dataTable.js";
import { Plot } from "../../widgets/plots/plot.js";
import { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { decimal, percent, withUnit } from "../../widgets/typeset.js";
import { drawLines } from "./linesPlot.js";
import { allSeries, least, type PlotView, type Series, seriesName, shownSeries } from "./series.js";
import type { DataPoint } from "./seriesLine.js";

/** Correlation of left and right in windows of 400 ms along the take. */
export const correlationPlot = (view: PlotView): PlotFigure =>
  new PlotFigure({
    title: "How alike left and right are: correlation over time",
    reads: "1 is mono, 0 unrelated sides, below 0 the sides work against each other and lose in mono.",
    wide: true,
    draw: (width) => drawn(view, width),
    summary: () => summary(view),
    table: () => correlationTable(view),
  });

function drawn(view: PlotView, width: number): Element {
  return drawLines({
    width,
    height: 260,
    x: { label: "time in the take (s)", labelAnchor: "center", labelArrow: "none", grid: false },
    y: {
      label: "how alike: correlation (\u22121 to 1)",
      domain: [-1, 1],
      grid: true,
      labelArrow: "none",
    },
    under: [Plot.ruleY([0], { stroke: "currentColor", strokeOpacity: 0.6 })],
    lines: shownSeries(view).map((series) => ({ series, points: points(series) })),
    markEvery: ({ length }) => Math.max(1, Math.round(length / 8)),
  });
}

/** Half a window, seconds: a value stands for the middle of its 400 ms. */
const halfWindowSeconds = 0.2;

function points({ measures: { correlationOverTime: over } }: Series): readonly DataPoint[] {
  return over?.values.map((y, n) => ({ x: n * over.hopSeconds + halfWindowSeconds, y })) ?? [];
}

function summary(view: PlotView): string {
  const series = allSeries(view);
  const lowest = least(series, ({ correlationOverTime }) => correlationOverTime?.median ?? null);
  if (!lowest) return "No correlation over time: nothing sounds.";
  const mono = series.filter(({ measures }) => (measures.correlationOverTime?.percentile5 ?? 0) > 0.999);
  const monoWords = mono.length > 0 ? ` Mono throughout: ${mono.map(({ label }) => label).join(", ")}.` : "";
  const below = lowest.series.measures.correlationOverTime?.shareBelowZero ?? 0;
  return (
    `Widest apart: ${lowest.series.label}, median ${decimal(lowest.value, 2)}, ` +
    `below 0 for ${withUnit(percent(below), "%")} of the time.${monoWords}`
  );
}

const correlationTable = (view: PlotView): HTMLTableElement =>
  table(
    "Correlation of left and right",
    [
      { heading: "Routing" },
      { heading: "whole take", plain: plainWords.correlation },
      { heading: "median", plain: plainWords.median },
      { heading: "5th percentile", plain: plainWords.percentile5 },
      { heading: "below 0", unit: "% of time", plain: plainWords.belowZero },
    ],
    allSeries(view).map((series) => {
      const { correlation, correlationOverTime } = series.measures;
      return [
        seriesName(series),
        decimal(correlation, 2),
        decimal(correlationOverTime?.median ?? null, 2),
        decimal(correlationOverTime?.percentile5 ?? null, 2),
        percent(correlationOverTime?.shareBelowZero ?? null),
      ];
    }),
  );
