import type { StereoField } from "../../contract/bench.js";
import { el, fill, setText, svg } from "../../widgets/dom.js";
import type { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { scroller, table } from "../../widgets/section.js";
import { decimal, percent, signed, withUnit } from "../../widgets/typeset.js";
import type { View } from "../view.js";
import { allSeries, largest, type Series, seriesName } from "./series.js";

/** Left against right, turned 45 degrees: a thin upright stroke is mono, a round cloud is wide. One picture a routing. */
export function fieldPlot(view: View): PlotFigure {
  const tiles = el("div", { class: "fields" });
  const words = el("p", { class: "summary" });
  const scale = el("p", { class: "reads" });
  const details = el("details", {}, el("summary", {}, "Table"));
  const node = el(
    "figure",
    { class: "wide", "aria-labelledby": "field-title" },
    el("h3", { id: "field-title" }, "Stereo field"),
    el(
      "p",
      { class: "reads" },
      "Where the energy is, over the whole take. Upright: mid, (L + R)/2; level: side, (R \u2212 L)/2. A thin upright stroke " +
        "is mono, a cloud is wide, a level stroke cancels in mono.",
    ),
    scale,
    tiles,
    words,
    details,
  );
  const update = () => {
    const { fields } = view.bench;
    const half = halfInSight([...fields.values()]);
    setText(scale, `The edges stand at \u00b1${decimal(half, 2)} of full scale, alike in all.`);
    const shown = allSeries(view).filter(({ id }) => !view.hidden.has(id));
    fill(tiles, ...shown.map((series) => tile(series, fields.get(series.id), half)));
    setText(words, summary(view));
    if (!details.open) return;
    details.querySelector(".scroller")?.remove();
    details.append(scroller("Table: stereo field", fieldTable(view)));
  };
  details.addEventListener("toggle", update);
  return { node, update };
}

function tile(series: Series, field: StereoField | undefined, half: number): HTMLElement {
  const { label, measures, isReference, isChosen } = series;
  const canvas = el("canvas", {
    role: "img",
    "aria-label": `${label}: side share ${withUnit(percent(measures.sideShare), "%")}, balance ${withUnit(signed(measures.balanceDb, 1), "dB")}`,
  });
  if (field) paint(canvas, field, half);
  return el(
    "div",
    { class: isChosen ? "field chosen" : "field" },
    el("div", { class: "square" }, canvas, axes()),
    el("p", {}, label, isReference ? el("span", { class: "reference" }, " reference") : null),
  );
}

/** Mid upright, side level, left and right on the diagonals. */
function axes(): SVGSVGElement {
  const text = (x: number, y: number, anchor: string, words: string) =>
    svg("text", { x, y, "text-anchor": anchor }, words);
  return svg(
    "svg",
    { viewBox: "0 0 100 100", "aria-hidden": true },
    svg("path", { d: "M50,2V98M2,50H98", class: "axis" }),
    svg("path", { d: "M8,8L92,92M92,8L8,92", class: "diagonal" }),
    text(50, 9, "middle", "mid"),
    text(97, 47, "end", "side"),
    text(4, 12, "start", "L"),
    text(96, 12, "end", "R"),
  );
}

/** Cells fainter than this are left out of the decision how much of the fields to show. */
const faintest = 0.003;

/** From the middle to the edge of what is shown, 1 for all of it: one measure for all fields, so that they compare. */
function halfInSight(fields: readonly StereoField[]): number {
  let farthest = 0.05;
  for (const { size, cells } of fields) {
    for (let n = 0; n < cells.length; n++) {
      if (cells[n] < faintest) continue;
      const x = Math.abs((n % size) + 0.5 - size / 2);
      const y = Math.abs(Math.floor(n / size) + 0.5 - size / 2);
      farthest = Math.max(farthest, (Math.max(x, y) + 0.5) / (size / 2));
    }
  }
  return Math.min(1, Math.ceil(farthest * 20) / 20);
}

/** Ink by density: the square root, so that faint parts show. */
function paint(canvas: HTMLCanvasElement, { size, cells }: StereoField, half: number): void {
  const margin = Math.floor((size * (1 - half)) / 2);
  const shown = size - 2 * margin;
  canvas.width = shown;
  canvas.height = shown;
  const context = canvas.getContext("2d");
  if (!context) return;
  const image = context.createImageData(shown, shown);
  for (let row = 0; row < shown; row++) {
    for (let column = 0; column < shown; column++) {
      const density = cells[(row + margin) * size + column + margin];
      image.data[4 * (row * shown + column) + 3] = 255 * Math.sqrt(density);
    }
  }
  context.putImageData(image, 0, 0);
}

function summary(view: View): string {
  const series = allSeries(view);
  const lopsided = largest(series, ({ balanceDb }) => (balanceDb === null ? null : Math.abs(balanceDb)));
  const widest = largest(series, ({ sideShare }) => sideShare);
  if (!widest) return "Nothing sounds.";
  const leans =
    lopsided && lopsided.value >= 0.5
      ? ` Most lopsided: ${lopsided.series.label}, ${withUnit(decimal(lopsided.value, 1), "dB")} louder on the ${
          (lopsided.series.measures.balanceDb ?? 0) > 0 ? "left" : "right"
        }.`
      : " No routing leans to a side by half a decibel.";
  return `Widest: ${widest.series.label}, side share ${withUnit(percent(widest.value), "%")}.${leans}`;
}

function fieldTable(view: View): HTMLTableElement {
  return table(
    "Width and balance",
    [
      { heading: "Routing" },
      { heading: "side share", unit: "%" },
      { heading: "side to mid", unit: "dB" },
      { heading: "balance, L to R", unit: "dB" },
      { heading: "IACC", unit: "0 to 1" },
    ],
    allSeries(view).map((series) => {
      const { sideShare, sideToMidDb, balanceDb, iacc } = series.measures;
      return [
        seriesName(series),
        percent(sideShare),
        signed(sideToMidDb, 1),
        signed(balanceDb, 1),
        decimal(iacc, 2),
      ];
    }),
  );
}
