import { plainWords } from "../../../words/plainWords.js";
import { table } from "../../widgets/dataTable.js";
import { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { decimal, withUnit } from "../../widgets/typeset.js";
import { drawLines } from "./linesPlot.js";
import { allSeries, largest, type PlotView, type Series, seriesName, shownSeries } from "./series.js";
import type { DataPoint } from "./seriesLine.js";

/** How each routing dies away: the energy that is still to come in its impulse response. */
export const decayPlot = (view: PlotView): PlotFigure =>
  new PlotFigure({
    title: "How it dies away: decay",
    reads:
      "What still rings after one click into the routing: the energy to come in its impulse response (backward integration, ISO 3382-1).",
    draw: (width) =>
      drawLines({
        width,
        height: 250,
        x: { label: "time after the click (s)", labelAnchor: "center", labelArrow: "none" },
        y: {
          label: "what still rings (dB)",
          domain: [floorDb, 0],
          grid: true,
          labelArrow: "none",
          clamp: false,
        },
        under: [],
        lines: shownSeries(view).map((series) => ({ series, points: points(series) })),
        markEvery: ({ length }) => Math.max(1, Math.round(length / 7)),
      }),
    summary: () => summary(view),
    table: () => decayTable(view),
  });

const floorDb = -65;

function points({ measures: { decay } }: Series): readonly DataPoint[] {
  if (!decay) return [];
  const end = decay.curveDb.findIndex((db) => !(db > floorDb));
  return decay.curveDb.slice(0, end < 0 ? undefined : end).map((y, n) => ({ x: n * decay.stepSeconds, y }));
}

function summary(view: PlotView): string {
  const longest = largest(allSeries(view), ({ decay }) => decay?.t30Seconds ?? decay?.t20Seconds ?? null);
  return longest
    ? `Longest: ${longest.series.label}, ${withUnit(decimal(longest.value, 2), "s")} for 60 dB.`
    : "No decay to measure: no routing of this rig rings on evenly enough.";
}

const decayTable = (view: PlotView): HTMLTableElement =>
  table(
    "Decay to 60 dB, extrapolated; \u2013 where the curve allows no straight line",
    [
      { heading: "Routing" },
      { heading: "EDT", unit: "s", plain: plainWords.edt },
      { heading: "T20", unit: "s", plain: plainWords.reverberation },
      { heading: "T30", unit: "s", plain: plainWords.reverberation },
    ],
    allSeries(view).map((series) => {
      const { decay } = series.measures;
      const times = [decay?.edtSeconds, decay?.t20Seconds, decay?.t30Seconds];
      return [seriesName(series), ...times.map((seconds) => decimal(seconds ?? null, 2))];
    }),
  );
