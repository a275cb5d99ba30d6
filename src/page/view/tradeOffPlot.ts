import { frame } from "./lines.js";
import { decimal, percent, withUnit } from "./numbers.js";
import { drawPlot, Plot } from "./plot.js";
import { type PlotFigure, plotFigure } from "./plotFigure.js";
import { table } from "./section.js";
import { allSeries, type Series, seriesName, shownSeries } from "./series.js";
import type { View } from "./view.js";

/** The choice in one picture: width kept against what is lost in mono, with the boxes that it takes. */
export function tradeOffPlot(view: View): PlotFigure {
  return plotFigure({
    title: "The trade-off",
    reads:
      "High: much of the reference\u2019s width. Left: little lost in mono. Behind each name, the boxes beyond your own.",
    wide: true,
    draw: (width) => drawn(view, width),
    summary: () => summary(view),
    table: () =>
      table(
        "Width kept, loss in mono, and extra boxes",
        [
          { heading: "Routing" },
          { heading: "width kept", unit: "%" },
          { heading: "loss in mono", unit: "dB" },
          { heading: "extra boxes" },
        ],
        allSeries(view).map((series) => [
          seriesName(series),
          percent(series.measures.widthKept),
          decimal(series.measures.foldDownLossDb, 1),
          String(extraBoxes(series)),
        ]),
      ),
  });
}

interface Spot {
  readonly series: Series;
  readonly x: number;
  readonly y: number;
  /** Height of the label, in px from the spot. */
  readonly dy: number;
}

const height = 340;
/** Labels nearer than this are pushed apart, px. */
const labelPx = 15;

function drawn(view: View, width: number): Element {
  const raw = shownSeries(view).flatMap((series) => {
    const { widthKept, foldDownLossDb } = series.measures;
    return widthKept === null || foldDownLossDb === null
      ? []
      : [{ series, x: foldDownLossDb, y: 100 * widthKept }];
  });
  const top = Math.max(110, ...raw.map(({ y }) => y * 1.08));
  const right = Math.max(1, ...raw.map(({ x }) => x));
  const labelWidth = Math.min(240, width * 0.45);
  const spots = spread(raw, (y) => (y / top) * (height - 66));
  return drawPlot({
    ...frame(width, height),
    marginRight: labelWidth,
    x: {
      label: "loss in mono (dB)",
      labelAnchor: "center",
      labelArrow: "none",
      domain: [0, right * 1.05],
      grid: true,
      ticks: width < 480 ? 4 : 8,
    },
    y: { label: "width kept (% of the reference)", domain: [0, top], grid: true, labelArrow: "none" },
    marks: [
      Plot.ruleY([0], { stroke: "currentColor", strokeOpacity: 0.6 }),
      Plot.ruleY([100], { stroke: "currentColor", strokeOpacity: 0.6, strokeDasharray: "2 3" }),
      ...spots.flatMap(({ series, x, y, dy }) => {
        const { mark, isChosen } = series;
        const boxes = extraBoxes(series);
        const text = `${shorter(series.label, width < 560 ? 17 : 34)}, +${boxes}`;
        return [
          Plot.dot([{ x, y }], {
            x: "x",
            y: "y",
            symbol: mark.symbol,
            r: 5 + 1.2 * boxes,
            fill: mark.colour,
            stroke: isChosen ? "currentColor" : "var(--paper)",
            strokeWidth: isChosen ? 2 : 1,
          }),
          Plot.text([{ x, y }], {
            x: "x",
            y: "y",
            text: () => text,
            dx: 12 + 1.2 * boxes,
            dy,
            textAnchor: "start",
            fontWeight: isChosen ? "bold" : "normal",
            fill: "currentColor",
            stroke: "var(--paper)",
            strokeWidth: 3,
          }),
        ];
      }),
    ],
  });
}

const shorter = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, most - 1).trimEnd()}\u2026` : text;

/** Labels from the bottom up, each a line above the one before where their places are alike. */
function spread(raw: readonly Omit<Spot, "dy">[], toPx: (y: number) => number): readonly Spot[] {
  let highest = 0;
  return [...raw]
    .sort((a, b) => a.y - b.y)
    .map((spot) => {
      const place = Math.max(toPx(spot.y), highest + labelPx);
      highest = place;
      return { ...spot, dy: toPx(spot.y) - place };
    })
    .sort((a, b) => extraBoxes(b.series) - extraBoxes(a.series));
}

const extraBoxes = ({ routing }: Series): number => routing.build?.extraBoxes ?? 0;

function summary(view: View): string {
  const others = allSeries(view).filter(
    ({ isReference, measures }) => !isReference && measures.widthKept !== null,
  );
  const kept = [...others].sort((a, b) => (b.measures.widthKept ?? 0) - (a.measures.widthKept ?? 0));
  const [best] = kept;
  if (!best) return "Nothing to weigh: no other routing has a width.";
  const boxes = extraBoxes(best);
  const none = kept.filter(({ measures }) => (measures.widthKept ?? 0) < 0.01).map(({ label }) => label);
  return (
    `Keeps most beside the reference: ${best.label}, ${withUnit(percent(best.measures.widthKept), "%")} of its width, ` +
    `${withUnit(decimal(best.measures.foldDownLossDb, 1), "dB")} lost in mono, ${boxes} extra ${boxes === 1 ? "box" : "boxes"}.` +
    (none.length > 0 ? ` No width left: ${none.join(", ")}.` : "")
  );
}
