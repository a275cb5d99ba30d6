import { type Markish, Plot } from "../../widgets/plots/plot.js";
import type { Series } from "./series.js";

export interface DataPoint {
  readonly x: number;
  readonly y: number | null;
}

/** A routing's line in its dash, with its mark every `markEvery` points; strong and in its colour when it is heard. */
export function seriesLine(series: Series, points: readonly DataPoint[], markEvery: number): Markish[] {
  const { mark, isChosen, ink } = series;
  const marked = points.filter((_, n) => n % markEvery === Math.floor(markEvery / 2) % markEvery);
  return [
    Plot.line(points, {
      x: "x",
      y: "y",
      className: "series-line",
      stroke: ink,
      strokeWidth: isChosen ? 3 : 1.4,
      strokeDasharray: mark.dash,
      strokeLinejoin: "round",
    }),
    Plot.dot(
      marked.filter(({ y }) => y !== null),
      {
        x: "x",
        y: "y",
        symbol: mark.symbol,
        r: isChosen ? 5 : 3.4,
        fill: ink,
        stroke: "var(--paper)",
        strokeWidth: 1,
      },
    ),
  ];
}
