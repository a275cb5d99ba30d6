import { drawPlot, type Markish, Plot } from "../../widgets/plots/plot.js";
import { plotFrame } from "../../widgets/plots/plotFrame.js";
import { labelPlaces } from "./labelPlaces.js";
import { type Series, seriesName } from "./series.js";

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

/** A mark a routing, and their names in a column beyond the end of the axis, each tied to its mark. */
export function drawTradeOff(series: readonly Series[], width: number): Element {
  const spots = series.flatMap(spotOf);
  const layout = plotFrame(width, height);
  const top = Math.max(110, ...spots.map(({ y }) => y * 1.08));
  const end = 1.04 * Math.max(1, ...spots.map(({ x }) => x));
  const insidePx = height - layout.marginTop - layout.marginBottom;
  const labelled = withLabels(spots, (labelPx / insidePx) * top, top);
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
      labelLinks(labelled, end),
      ...labelled.flatMap((spot) => spotMarks(spot, end, width < 560 ? 16 : 40)),
    ],
  });
}

export const extraBoxes = ({ routing }: Series): number => routing.build?.extraBoxes ?? 0;

/** None where a figure is not known. */
function spotOf(series: Series): Spot[] {
  const { widthKept, foldDownLossDb } = series.measures;
  return widthKept === null || foldDownLossDb === null
    ? []
    : [{ series, x: foldDownLossDb, y: 100 * widthKept }];
}

/** Larger marks come first, so that none hides a smaller. */
function withLabels(spots: readonly Spot[], apart: number, top: number): readonly LabelledSpot[] {
  const rising = [...spots].sort((a, b) => a.y - b.y);
  const places = labelPlaces(
    rising.map(({ y }) => y),
    apart,
    top,
  );
  return rising
    .map((spot, n) => ({ ...spot, labelY: places[n] }))
    .sort((a, b) => extraBoxes(b.series) - extraBoxes(a.series));
}

const labelLinks = (spots: readonly LabelledSpot[], end: number): Markish =>
  Plot.link(spots, {
    x1: "x",
    y1: "y",
    x2: end,
    y2: "labelY",
    stroke: "currentColor",
    strokeOpacity: 0.35,
    strokeWidth: 1,
  });

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
      text: () => `${endOf(seriesName(spot.series), mostLetters)}, +${boxes}`,
      dx: 5,
      textAnchor: "start",
      fontWeight: isChosen ? "bold" : "normal",
      fill: "currentColor",
    }),
  ];
}

/** Labels differ in their ends ("after a sum", "from a split"), so the beginning goes. */
const endOf = (text: string, most: number): string =>
  text.length > most ? `\u2026${text.slice(1 - most).trimStart()}` : text;
