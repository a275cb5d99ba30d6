import { frame } from "../../widgets/plots/lines.js";
import { drawPlot, type Markish, Plot } from "../../widgets/plots/plot.js";
import { type PlotFigure, plotFigure } from "../../widgets/plots/plotFigure.js";
import { table } from "../../widgets/section.js";
import { decimal, percent, withUnit } from "../../widgets/typeset.js";
import type { View } from "../view.js";
import { allSeries, type Series, seriesName, shownSeries } from "./series.js";

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
}
/** `labelY` is where the label stands, on the scale of y. */
interface LabelledSpot extends Spot {
  readonly labelY: number;
}

const height = 340;
/** Labels stand a line apart, px. */
const labelPx = 16;

function drawn(view: View, width: number): Element {
  const raw = shownSeries(view).flatMap((series): Spot[] => {
    const { widthKept, foldDownLossDb } = series.measures;
    return widthKept === null || foldDownLossDb === null
      ? []
      : [{ series, x: foldDownLossDb, y: 100 * widthKept }];
  });
  const layout = frame(width, height);
  const top = Math.max(110, ...raw.map(({ y }) => y * 1.08));
  const end = 1.04 * Math.max(1, ...raw.map(({ x }) => x));
  const insidePx = height - layout.marginTop - layout.marginBottom;
  const spots = labelled(raw, (labelPx / insidePx) * top, top);
  return drawPlot({
    ...layout,
    marginRight: Math.min(290, width * 0.47),
    x: {
      label: "loss in mono (dB)",
      labelAnchor: "center",
      labelArrow: "none",
      domain: [0, end],
      grid: true,
      ticks: width < 480 ? 4 : 8,
    },
    y: { label: "width kept (% of the reference)", domain: [0, top], grid: true, labelArrow: "none" },
    marks: [
      Plot.ruleY([0], { stroke: "currentColor", strokeOpacity: 0.6 }),
      Plot.ruleY([100], { stroke: "currentColor", strokeOpacity: 0.6, strokeDasharray: "2 3" }),
      Plot.link(spots, {
        x1: "x",
        y1: "y",
        x2: end,
        y2: "labelY",
        stroke: "currentColor",
        strokeOpacity: 0.35,
        strokeWidth: 1,
      }),
      ...spots.flatMap((spot) => spotMarks(spot, end, width < 560 ? 16 : 40)),
    ],
  });
}

/** The routing's mark, larger by its extra boxes, and its name beyond the end of the axis. */
function spotMarks(spot: LabelledSpot, end: number, mostLetters: number): Markish[] {
  const { mark, isChosen } = spot.series;
  const boxes = extraBoxes(spot.series);
  return [
    Plot.dot([spot], {
      x: "x",
      y: "y",
      symbol: mark.symbol,
      r: 5 + 1.2 * boxes,
      fill: mark.colour,
      stroke: isChosen ? "currentColor" : "var(--paper)",
      strokeWidth: isChosen ? 2 : 1,
    }),
    Plot.text([spot], {
      x: end,
      y: "labelY",
      text: () => `${shorter(seriesName(spot.series), mostLetters)}, +${boxes}`,
      dx: 5,
      textAnchor: "start",
      fontWeight: isChosen ? "bold" : "normal",
      fill: "currentColor",
    }),
  ];
}

/** Labels differ in their ends ("after a sum", "from a split"), so the beginning goes. */
const shorter = (text: string, most: number): string =>
  text.length > most ? `\u2026${text.slice(1 - most).trimStart()}` : text;

/**
 * A place for each label, in the order of the spots' heights, `apart` from the next: pushed up from the bottom where
 * they crowd, and down again where they would leave the top. Larger marks come first, so that none hides a smaller.
 */
function labelled(raw: readonly Spot[], apart: number, top: number): readonly LabelledSpot[] {
  const rising = [...raw].sort((a, b) => a.y - b.y);
  const places: number[] = [];
  for (const { y } of rising) places.push(Math.max(y, (places.at(-1) ?? -apart) + apart));
  for (let n = places.length - 1; n >= 0; n--)
    places[n] = Math.min(places[n], (places[n + 1] ?? top + apart) - apart);
  return rising
    .map((spot, n) => ({ ...spot, labelY: places[n] }))
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
