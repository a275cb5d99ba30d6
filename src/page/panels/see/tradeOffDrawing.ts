import { count } from "../../../text/numbers.js";
import { drawPlot, type Markish, Plot } from "../../widgets/plots/plot.js";
import { plotFrame } from "../../widgets/plots/plotFrame.js";
import { labelPlaces } from "./labelPlaces.js";
import { type Series, seriesName } from "./series.js";

interface Spot {
  readonly series: Series;
  readonly x: number;
  readonly y: number;
  /** Name and boxes, in lines that fit. */
  readonly label: readonly string[];
}
/** `labelY` is where the label stands, on the scale of y. */
interface LabelledSpot extends Spot {
  readonly labelY: number;
}

const leastHeight = 340;
/** Lines of a label, one under the other, and labels a little farther apart, px. */
const linePx = 13;
const labelGapPx = 5;
/** Room of a letter of 12 px, bold, px. */
const letterPx = 6.9;

/** A mark a routing, and their names in a column beyond the end of the axis, each tied to its mark. */
export function drawTradeOff(series: readonly Series[], width: number): Element {
  const marginRight = Math.min(330, width * 0.5);
  const lettersFit = Math.floor((marginRight - 10) / letterPx);
  const spots = series.flatMap((one) => spotOf(one, lettersFit));
  const lines = Math.max(1, ...spots.map(({ label }) => label.length));
  const labelPx = lines * linePx + labelGapPx;
  const frame = plotFrame(width, 0);
  const height = Math.max(leastHeight, frame.marginTop + frame.marginBottom + spots.length * labelPx);
  const layout = plotFrame(width, height);
  const top = Math.max(110, ...spots.map(({ y }) => y * 1.08));
  const end = 1.04 * Math.max(1, ...spots.map(({ x }) => x));
  const insidePx = height - layout.marginTop - layout.marginBottom;
  const perPx = top / insidePx;
  const half = ((lines - 1) * linePx * perPx) / 2;
  const labelled = withLabels(spots, labelPx * perPx, { least: half, most: top - half });
  return drawPlot({
    ...layout,
    marginRight,
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
      ...labelled.flatMap((spot) => spotMarks(spot, end)),
    ],
  });
}

export const extraBoxes = ({ routing }: Series): number => routing.build?.extraBoxes ?? 0;

/** None where a figure is not known. */
function spotOf(series: Series, letters: number): Spot[] {
  const { widthKept, foldDownLossDb } = series.measures;
  return widthKept === null || foldDownLossDb === null
    ? []
    : [{ series, x: foldDownLossDb, y: 100 * widthKept, label: labelOf(series, letters) }];
}

/** Larger marks come first, so that none hides a smaller. */
function withLabels(
  spots: readonly Spot[],
  apart: number,
  { least, most }: { readonly least: number; readonly most: number },
): readonly LabelledSpot[] {
  const rising = [...spots].sort((a, b) => a.y - b.y);
  const places = labelPlaces(
    rising.map(({ y }) => Math.max(y, least)),
    apart,
    most,
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
function spotMarks(spot: LabelledSpot, end: number): Markish[] {
  const { mark, isChosen, ink } = spot.series;
  const boxes = extraBoxes(spot.series);
  return [
    Plot.dot([spot], {
      x: "x",
      y: "y",
      symbol: mark.symbol,
      r: 5 + 1.2 * boxes,
      fill: ink,
      stroke: isChosen ? "currentColor" : "var(--paper)",
      strokeWidth: isChosen ? 2 : 1,
    }),
    Plot.text([spot], {
      x: end,
      y: "labelY",
      text: () => spot.label.join("\n"),
      lineHeight: linePx / 12,
      dx: 5,
      textAnchor: "start",
      fontWeight: isChosen ? "bold" : "normal",
      fill: "currentColor",
    }),
  ];
}

const labelOf = (series: Series, letters: number): readonly string[] =>
  inLines(`${seriesName(series)}, ${boxesWords(extraBoxes(series))}`, letters);

const boxesWords = (boxes: number): string =>
  boxes === 0 ? "no box more" : `${count(boxes, "box", "boxes")} more`;

/** Words in lines of so many letters at most; a word that is longer stands alone, cut into pieces. */
function inLines(text: string, letters: number): readonly string[] {
  const pieces = text.split(" ").flatMap((word) => word.match(new RegExp(`.{1,${letters}}`, "gu")) ?? []);
  const lines: string[] = [];
  for (const piece of pieces) {
    const longer = `${lines.at(-1) ?? ""} ${piece}`.trim();
    if (lines.length > 0 && longer.length <= letters) lines[lines.length - 1] = longer;
    else lines.push(piece);
  }
  return lines;
}
