import type { OctaveBand } from "../../../sound/measure/band.js";
import { table } from "../../widgets/dataTable.js";
import { Plot } from "../../widgets/plots/plot.js";
import { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { centre, decimal, hertz, percent, withUnit } from "../../widgets/typeset.js";
import { frequencyAxis, octavesFrom1k } from "./frequencyAxis.js";
import { drawLines } from "./linesPlot.js";
import { allSeries, largest, type PlotView, type Series, seriesName, shownSeries } from "./series.js";

/** Where in the spectrum the width is: the share of the side in each octave. */
export function octaveWidthPlot(view: PlotView): PlotFigure {
  return octavePlot(view, {
    title: "How wide, from low notes to high: width by octave",
    reads:
      "Side share: what differs between left and right, (L \u2212 R)/\u221a2, in the energy. 0 is mono, 50 % unrelated sides, 100 % opposite polarity.",
    axis: "how wide: side share (%)",
    value: ({ sideShare }) => (sideShare === null ? null : 100 * sideShare),
    cell: ({ sideShare }) => percent(sideShare),
    domain: [0, 100],
    rule: 50,
    summary: () => {
      const widest = largest(allSeries(view), ({ sideShare }) => sideShare);
      return widest
        ? `Widest as a whole: ${widest.series.label}, side share ${withUnit(percent(widest.value), "%")}.`
        : "No width: nothing sounds.";
    },
  });
}

/** What folding to mono takes from each octave. */
export function octaveFoldPlot(view: PlotView): PlotFigure {
  return octavePlot(view, {
    title: "What a sum to mono takes: loss in mono by octave",
    reads:
      "Energy lost when folded to mono: 0 dB for mono, 3.0 dB for unrelated sides, more where the sides cancel.",
    axis: "loss in mono (dB)",
    value: ({ foldDownLossDb }) => foldDownLossDb,
    cell: ({ foldDownLossDb }) => decimal(foldDownLossDb, 1),
    domain: null,
    rule: 10 * Math.log10(2),
    summary: () => {
      const worst = largest(allSeries(view), ({ foldDownLossDb }) => foldDownLossDb);
      if (!worst) return "No loss in mono: nothing sounds.";
      const { worstFoldDownHz } = worst.series.measures;
      const where = worstFoldDownHz === null ? "" : `, most in the octave at ${hertz(worstFoldDownHz)}`;
      return `Loses most: ${worst.series.label}, ${withUnit(decimal(worst.value, 1), "dB")} as a whole${where}.`;
    },
  });
}

interface OctaveOptions {
  readonly title: string;
  readonly reads: string;
  readonly axis: string;
  readonly value: (band: OctaveBand) => number | null;
  readonly cell: (band: OctaveBand) => string;
  readonly domain: readonly [number, number] | null;
  /** The value of unrelated sides. */
  readonly rule: number;
  readonly summary: () => string;
}

function octavePlot(view: PlotView, options: OctaveOptions): PlotFigure {
  const { title, reads, summary } = options;
  return new PlotFigure({
    title,
    reads,
    draw: (width) => drawn(view, options, width),
    summary,
    table: () => octaveTable(view, options),
  });
}

function drawn(view: PlotView, { axis, value, domain, rule }: OctaveOptions, width: number): Element {
  const points = ({ measures }: Series) =>
    measures.bands.filter(audible).map((band) => ({ x: octavesFrom1k(band.centreHz), y: value(band) }));
  return drawLines({
    width,
    height: 250,
    x: frequencyAxis(width, [50, 20_000], "low to high: octave centre (Hz)"),
    y: {
      label: axis,
      grid: true,
      nice: true,
      labelArrow: "none",
      ...(domain ? { domain: [...domain] } : {}),
    },
    under: [
      Plot.ruleY([rule], { stroke: "currentColor", strokeOpacity: 0.6, strokeDasharray: "2 3" }),
      Plot.ruleY([0], { stroke: "currentColor", strokeOpacity: 0.6 }),
    ],
    lines: shownSeries(view).map((series) => ({ series, points: points(series) })),
    markEvery: () => 1,
  });
}

const audible = ({ centreHz }: OctaveBand): boolean => centreHz >= 63 && centreHz <= 16_000;

function octaveTable(view: PlotView, { title, axis, cell }: OctaveOptions): HTMLTableElement {
  const series = allSeries(view);
  const bands = series[0]?.measures.bands.filter(audible) ?? [];
  return table(
    `${title}: ${axis}`,
    [{ heading: "Routing" }, ...bands.map(({ centreHz }) => ({ heading: centre(centreHz), unit: "Hz" }))],
    series.map((one) => [
      seriesName(one),
      ...bands.map(({ centreHz }) => {
        const band = one.measures.bands.find((other) => other.centreHz === centreHz);
        return band ? cell(band) : "";
      }),
    ]),
  );
}
