import { wordingOf } from "../../../work/sweep/figures.js";
import { el, svg } from "../../widgets/dom.js";
import { frame } from "../../widgets/plots/lines.js";
import { drawPlot, Plot } from "../../widgets/plots/plot.js";
import { plotFigure } from "../../widgets/plots/plotFigure.js";
import { table } from "../../widgets/section.js";
import {
  drawnFigure,
  figureCell,
  knobTitle,
  measureTitle,
  type SweepPoint,
  valueText,
} from "./sweepPoints.js";
import { listen, type SweepPlot } from "./sweepScatter.js";
import type { SweepPlotActs, SweepState } from "./sweepState.js";

/** One measure over two groups of knobs, in the routing of the point that is read; other knobs stand as they do there. */
export interface HeatAxes {
  /** Numbers of the groups; `up` is null where only one is varied, and the routings stand there. */
  across: number;
  up: number | null;
}

export function sweepHeat(state: SweepState, axes: HeatAxes, acts: SweepPlotActs): SweepPlot {
  let place = () => {};
  let shown = "";
  const figure = plotFigure({
    title: "Over the knobs",
    reads:
      "A cell is one setting; its colour is the measure. Dotted: on the front. Where there are more knobs than two, the others stand as in the setting that is read.",
    wide: true,
    draw: (width) => {
      const { drawn, moved } = heat(state, axes, acts, width);
      place = moved;
      return drawn;
    },
    summary: () => {
      const { least, most } = ends(cellsOf(state, axes), state.y);
      const { name, unit } = wordingOf(state.y);
      const where = axes.up === null ? "all routings" : acts.nameOf(state.cursor.routing);
      return least && most
        ? `${name} in ${where}: from ${figureCell(least, state.y)} to ${figureCell(most, state.y)} ${unit}.`
        : "Nothing to draw here.";
    },
    table: () => heatTable(state, axes, acts),
  });
  return {
    ...figure,
    update() {
      shown = sliceOf(state, axes);
      figure.update();
    },
    point() {
      if (sliceOf(state, axes) === shown) return place();
      shown = sliceOf(state, axes);
      figure.update();
    },
  };
}

/** What the cells have in common: a point of another slice wants another picture. */
function sliceOf({ cursor, y }: SweepState, { across, up }: HeatAxes): string {
  const rest = cursor.steps.map((step, g) => (g === across || g === up ? "" : step));
  return JSON.stringify([y, across, up, up === null ? "" : cursor.routing, rest]);
}

function cellsOf(state: SweepState, { across, up }: HeatAxes): readonly SweepPoint[] {
  const { cursor, y } = state;
  const even = state.points.filter((point) => point.even);
  const beside = state.nearest(cursor.routing, cursor.steps, even);
  return even.filter(
    (point) =>
      (up === null || point.routing === cursor.routing) &&
      (point.figures[y] ?? null) !== null &&
      point.steps.every((step, g) => g === across || g === up || step === beside.steps[g]),
  );
}

function ends(cells: readonly SweepPoint[], measure: string) {
  const rising = [...cells].sort((a, b) => Number(a.figures[measure]) - Number(b.figures[measure]));
  return { least: rising.at(0), most: rising.at(-1) };
}

function heat(state: SweepState, axes: HeatAxes, acts: SweepPlotActs, width: number) {
  const { sweep, y } = state;
  const { across, up } = axes;
  const cells = cellsOf(state, axes);
  const column = (point: SweepPoint) => point.steps[across];
  const row = (point: SweepPoint) => (up === null ? point.routing : point.steps[up]);
  const stepWords = (group: number) => (step: number) => valueText(sweep.vary[group][0].values[step]);
  const columns = [...new Set(cells.map(column))].sort((a, b) => a - b);
  const rows: readonly (string | number)[] =
    up === null ? sweep.routings : [...new Set(cells.map(({ steps }) => steps[up]))].sort((a, b) => b - a);
  const every = <T>(all: readonly T[], most: number) =>
    all.filter((_, n) => n % Math.ceil(all.length / most) === 0);
  const height = Math.max(160, Math.min(420, 70 + 26 * rows.length));
  const marginLeft = up === null ? Math.min(190, width * 0.38) : 60;
  const mostColumns = Math.max(2, Math.floor((width - marginLeft) / 46));
  const drawn = drawPlot({
    ...frame(width, height),
    marginLeft,
    marginRight: 12,
    x: {
      type: "band",
      domain: columns,
      label: knobTitles(state, across),
      labelAnchor: "center",
      labelArrow: "none",
      ticks: every(columns, mostColumns),
      tickFormat: stepWords(across),
      padding: 0,
    },
    y: {
      type: "band",
      domain: rows,
      label: up === null ? "routing" : knobTitles(state, up),
      labelArrow: "none",
      ticks: every(rows, Math.floor(height / 22)),
      tickFormat: up === null ? (id: string) => shorter(acts.nameOf(id), marginLeft / 7) : stepWords(up),
      padding: 0,
    },
    color: { type: "linear", scheme: "cividis" },
    marks: [
      Plot.cell(cells, {
        x: column,
        y: row,
        fill: (point: SweepPoint) => drawnFigure(point, y),
        shapeRendering: "crispEdges",
      }),
      Plot.dot(
        cells.filter(({ front }) => front),
        { x: column, y: row, r: 4, fill: "#ffffff", stroke: "#000000", strokeWidth: 1.5 },
      ),
    ],
  });
  const scales = { x: drawn.scale("x"), y: drawn.scale("y") };
  const [wide, high] = [scales.x?.bandwidth ?? 0, scales.y?.bandwidth ?? 0];
  const corner = (point: SweepPoint): [number, number] => [
    scales.x?.apply(column(point)) ?? 0,
    scales.y?.apply(row(point)) ?? 0,
  ];
  const box = svg("g", { class: "cursor-cell" });
  const edges = ["under", "over"].map((part) => svg("rect", { width: wide, height: high, class: part }));
  box.append(...edges);
  drawn.append(box);
  const moved = () => {
    const isIn = cells.includes(state.cursor);
    box.setAttribute("visibility", isIn ? "visible" : "hidden");
    if (isIn) box.setAttribute("transform", `translate(${corner(state.cursor).join(" ")})`);
  };
  moved();
  listen(drawn, acts, (px, py) => {
    const inside = (point: SweepPoint) => {
      const [left, top] = corner(point);
      return px >= left && px < left + wide && py >= top && py < top + high;
    };
    return cells.find(inside) ?? null;
  });
  const color = drawn.scale("color");
  const legend =
    color && cells.length > 0
      ? Plot.legend({
          color: { ...color, label: measureTitle(y) },
          width: Math.min(260, width - 20),
          marginLeft: 10,
          style: { background: "none", color: "inherit", fontFamily: "inherit", fontSize: "12px" },
        })
      : null;
  return { drawn: el("div", {}, legend, drawn), moved };
}

const shorter = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, Math.max(3, Math.floor(most) - 1)).trimEnd()}\u2026` : text;

/** "mixer return (dB), mixer return pan": knobs that step together; the first one's values stand at the axis. */
export const knobTitles = ({ sweep }: SweepState, group: number): string =>
  sweep.vary[group].map(({ path }) => knobTitle(path)).join(", ");

function heatTable(state: SweepState, axes: HeatAxes, acts: SweepPlotActs): HTMLTableElement {
  const { sweep, y } = state;
  const { across, up } = axes;
  const cells = cellsOf(state, axes);
  const { name, unit } = wordingOf(y);
  const groups = up === null ? [across] : [across, up];
  return table(
    up === null ? name : `${name}, ${acts.nameOf(state.cursor.routing)}`,
    [
      ...groups.map((group) => ({ heading: knobTitles(state, group), text: true })),
      ...(up === null ? [{ heading: "routing", text: true }] : []),
      { heading: name, unit },
      { heading: "front", text: true },
    ],
    [...cells]
      .sort((a, b) => groups.reduce((order, g) => order || a.steps[g] - b.steps[g], 0))
      .slice(0, 500)
      .map((point) => [
        ...groups.map((group) => valueText(sweep.vary[group][0].values[point.steps[group]])),
        ...(up === null ? [acts.nameOf(point.routing)] : []),
        figureCell(point, y),
        point.front ? "yes" : "no",
      ]),
  );
}
