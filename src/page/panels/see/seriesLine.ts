import { type Markish, Plot } from "../../widgets/plots/plot.js";
import type { Series } from "./series.js";

export interface DataPoint {
  readonly x: number;
  readonly y: number | null;
}

/** A routing's line in its colour and dash, with its mark every `markEvery` points; heavier when it is heard. */
export function seriesLine(series: Series, points: readonly DataPoint[], markEvery: number): Markish[] {
  const { mark, isChosen, isReference } = series;
  const marked = points.filter((_, n) => n % markEvery === Math.floor(markEvery / 2) % markEvery);
  return [
    Plot.line(points, {
      x: "x",
      y: "y",
      className: "series-line",
      stroke: mark.colour,
      strokeWidth: isChosen ? 2.6 : 1.4,
      strokeDasharray: mark.dash,
      strokeLinejoin: "round",
    }),
    Plot.dot(
      marked.filter(({ y }) => y !== null),
      {
        x: "x",
        y: "y",
        symbol: mark.symbol,
        r: isChosen ? 5 : 3.8,
        fill: mark.colour,
        stroke: "var(--paper)",
        strokeWidth: 1,
      },
    ),
    ...(isReference ? [referenceLabel(points)] : []),
  ];
}

/** The reference's line says so at its end. */
function referenceLabel(points: readonly DataPoint[]): Markish {
  return Plot.text(points.filter(({ y }) => y !== null).slice(-1), {
    x: "x",
    y: "y",
    text: () => "reference",
    textAnchor: "start",
    dx: 5,
    fill: "currentColor",
  });
}
