import type { Series } from "../../panels/see/series.js";
import { centre } from "../typeset.js";
import { type Markish, Plot } from "./plot.js";

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

const octavesHz = [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000];

/** Place of a frequency on an axis that gives every octave the same room: octaves from 1 kHz. */
export const octavesFrom1k = (hz: number): number => Math.log2(hz / 1000);

/** A frequency axis with the octave centres as ticks; every other one where there is little room. */
export function frequencyAxis(width: number, domainHz: readonly [number, number], label: string) {
  const ticks = octavesHz.filter((_, n) => width > 420 || n % 2 === 0);
  return {
    domain: domainHz.map(octavesFrom1k),
    ticks: ticks.map(octavesFrom1k),
    tickFormat: (_place: number, n: number) => centre(ticks[n]),
    label,
    labelAnchor: "center",
    labelArrow: "none",
  } as const;
}

/** What all plots share: type, margins, a quiet grid. */
export function frame(width: number, height: number) {
  return {
    width,
    height,
    marginLeft: 52,
    marginRight: 64,
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
