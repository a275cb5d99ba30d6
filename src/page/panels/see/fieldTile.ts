import type { StereoField } from "../../contract/stereoField.js";
import { el, svg } from "../../widgets/dom.js";
import { percent, signed, withUnit } from "../../widgets/typeset.js";
import type { Series } from "./series.js";

/** The picture of one routing, under the axes, with its name. @param half  from the middle to the edge of what is shown */
export function fieldTile(series: Series, field: StereoField | undefined, half: number): HTMLElement {
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

/** Cells fainter than this are left out of the decision how much of the fields to show. */
const faintest = 0.003;

/** From the middle to the edge of what is shown, 1 for all of it: one measure for all fields, so that they compare. */
export function halfInSight(fields: readonly StereoField[]): number {
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
