import { svg } from "../../widgets/dom.js";
import { type DrawnPlot, drawPlot, type Markish } from "../../widgets/plots/plot.js";
import { plotFrame } from "../../widgets/plots/plotFrame.js";
import { labelPlaces } from "./labelPlaces.js";
import { type Series, seriesName } from "./series.js";
import { type DataPoint, seriesLine } from "./seriesLine.js";

interface SeriesPoints {
  readonly series: Series;
  readonly points: readonly DataPoint[];
}

type Axis = NonNullable<Parameters<typeof drawPlot>[0]["x"]>;

interface LinesOptions {
  readonly width: number;
  readonly height: number;
  readonly x: Axis;
  readonly y: Axis;
  /** Rules under the lines. */
  readonly under: readonly Markish[];
  readonly lines: readonly SeriesPoints[];
  /** Points from a line's mark to its next. */
  readonly markEvery: (points: readonly DataPoint[]) => number;
}

/** Labels stand a line apart, px. */
const labelPx = 14;
/** Room of a letter of 12 px, bold, and of the way to the label, px. */
const letterPx = 6.9;
const linkPx = 14;
/** With less room for the lines than this the labels are numbers, px. */
const leastInsidePx = 230;

/** Lines with a label each where they end: their names, or where these leave no room the numbers of the legend. */
export function drawLines({ width, height, x, y, under, lines, markEvery }: LinesOptions): Element {
  const frame = plotFrame(width, Math.max(height, 70 + lines.length * labelPx));
  const names = lines.map(({ series }) => seriesName(series));
  const room = linkPx + letterPx * Math.max(1, ...names.map(({ length }) => length));
  const isNamed = width - frame.marginLeft - room >= leastInsidePx;
  const marginRight = isNamed ? room : linkPx + 2.5 * letterPx;
  const drawn = drawPlot({
    ...frame,
    marginRight,
    x,
    y,
    marks: [
      ...under,
      ...lines.flatMap(({ series, points }) => seriesLine(series, points, markEvery(points))),
    ],
  });
  const end = { x: width - marginRight, bottom: frame.height - frame.marginBottom };
  labelEnds(drawn, lines, end, (series) => (isNamed ? seriesName(series) : series.number));
  return drawn;
}

function labelEnds(
  drawn: DrawnPlot,
  lines: readonly SeriesPoints[],
  end: { readonly x: number; readonly bottom: number },
  text: (series: Series) => string,
): void {
  const [acrossScale, upScale] = [drawn.scale("x"), drawn.scale("y")];
  const ends = lines
    .flatMap(({ series, points }) => {
      const last = points.findLast(({ y }) => y !== null);
      if (!last) return [];
      const y = Number(upScale?.apply(last.y));
      return [{ series, x: Number(acrossScale?.apply(last.x)), y: Math.min(y, end.bottom) }];
    })
    .sort((a, b) => a.y - b.y);
  const places = labelPlaces(
    ends.map(({ y }) => y),
    labelPx,
    end.bottom,
  );
  for (const [n, { series, x, y }] of ends.entries())
    drawn.append(...label(text(series), series.isChosen, { x, y }, { x: end.x + linkPx, y: places[n] }));
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A label, and a thin line to it from where the line ends. */
const label = (text: string, isChosen: boolean, from: Spot, to: Spot): readonly SVGElement[] => [
  svg("path", {
    d: `M${from.x + 2},${from.y}L${to.x - 3},${to.y}`,
    fill: "none",
    stroke: "currentColor",
    "stroke-opacity": isChosen ? 0.8 : 0.3,
  }),
  svg(
    "text",
    {
      class: "line-end",
      x: to.x,
      y: to.y,
      dy: "0.32em",
      "text-anchor": "start",
      fill: "currentColor",
      "font-weight": isChosen ? "bold" : null,
    },
    text,
  ),
];
