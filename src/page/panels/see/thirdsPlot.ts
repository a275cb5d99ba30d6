import type { LevelledBand } from "../../../sound/measure/band.js";
import { table } from "../../widgets/dataTable.js";
import { Plot } from "../../widgets/plots/plot.js";
import { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { centre, db, hertz, signed } from "../../widgets/typeset.js";
import { frequencyAxis, octavesFrom1k } from "./frequencyAxis.js";
import { drawLines } from "./linesPlot.js";
import { allSeries, type PlotView, type Series, seriesName, shownSeries } from "./series.js";

/** What each routing does to the tone: third-octave levels less those of the reference. */
export function thirdsPlot(view: PlotView): PlotFigure {
  return new PlotFigure({
    title: "Brighter or darker: tone against the reference",
    reads:
      "Third-octave levels less those of the reference routing, both at one loudness. The reference is the line at 0.",
    draw: (width) =>
      drawLines({
        width,
        height: 250,
        x: frequencyAxis(width, [40, 18_000], "low to high: third-octave centre (Hz)"),
        y: { label: "louder or softer there (dB)", grid: true, nice: true, labelArrow: "none" },
        under: [Plot.ruleY([0], { stroke: "currentColor", strokeOpacity: 0.6 })],
        lines: shownSeries(view).map((series) => ({ series, points: points(series) })),
        markEvery: () => 6,
      }),
    summary: () => summary(view),
    table: () => thirdsTable(view),
  });
}

const audible = ({ centreHz }: LevelledBand): boolean => centreHz >= 40 && centreHz <= 16_000;

const points = ({ measures, isReference }: Series) =>
  measures.thirds.filter(audible).map(({ centreHz, toReferenceDb, levelDb }) => ({
    x: octavesFrom1k(centreHz),
    y: isReference && levelDb !== null ? 0 : toReferenceDb,
  }));

function thirdsTable(view: PlotView): HTMLTableElement {
  const series = allSeries(view);
  const bands = series[0]?.measures.thirds.filter(audible) ?? [];
  return table(
    "Third-octave levels less those of the reference, dB",
    [{ heading: "Centre", unit: "Hz" }, ...series.map((one) => ({ heading: seriesName(one) }))],
    bands.map(({ centreHz }) => [
      centre(centreHz),
      ...series.map(({ measures }) =>
        signed(measures.thirds.find((third) => third.centreHz === centreHz)?.toReferenceDb ?? null, 1),
      ),
    ]),
  );
}

function summary(view: PlotView): string {
  let most: { label: string; hz: number; value: number } | null = null;
  for (const { label, measures, isReference } of allSeries(view)) {
    if (isReference) continue;
    for (const { centreHz, toReferenceDb } of measures.thirds.filter(audible)) {
      if (toReferenceDb !== null && Math.abs(toReferenceDb) > Math.abs(most?.value ?? 0))
        most = { label, hz: centreHz, value: toReferenceDb };
    }
  }
  if (!most) return "No difference in tone to the reference.";
  return `Farthest from the reference: ${most.label}, ${db(most.value)} around ${hertz(most.hz)}.`;
}
