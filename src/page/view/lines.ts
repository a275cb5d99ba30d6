import { type Markish, Plot } from "./plot.js";
import type { Series } from "./series.js";

export interface DataPoint {
  readonly x: number;
  readonly y: number | null;
}

/** A routing's line in its colour and dash, with its mark every `markEvery` points; heavier when it is heard. */
export function seriesLine(series: Series, points: readonly DataPoint[], markEvery: number): Markish[] {
  const { mark, isChosen } = series;
  const marked = points.filter((_, n) => n % markEvery === Math.floor(markEvery / 2) % markEvery);
  return [
    Plot.line(points, {
      x: "x",
      y: "y",
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
  ];
}

/** What all plots share: type, margins, a quiet grid. */
export function frame(width: number, height: number) {
  return {
    width,
    height,
    marginLeft: 52,
    marginRight: 16,
    marginTop: 26,
    marginBottom: 40,
    className: "chart",
    style: {
      background: "none",
      color: "inherit",
      fontFamily: "inherit",
      fontSize: "12px",
      overflow: "visible",
    },
  };
}
