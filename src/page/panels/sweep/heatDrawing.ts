import { el, svg } from "../../widgets/dom.js";
import { type DrawnPlot, drawPlot, Plot, type PlotScale } from "../../widgets/plots/plot.js";
import { plotFrame } from "../../widgets/plots/plotFrame.js";
import { cellsOf } from "./heatCells.js";
import { groupTitle, stepText } from "./knobNames.js";
import { drawnFigure, measureTitle } from "./measureNames.js";
import { listenForPoints, type PointDrawing, type SweepActions } from "./sweepPlot.js";
import type { SweepPoint } from "./sweepPoints.js";
import type { SweepState } from "./sweepState.js";

/** The cells of one slice under a legend of their colours, with a box about the one that is read. */
export class HeatDrawing implements PointDrawing {
  readonly node: Element;
  readonly #state: SweepState;
  readonly #cells: readonly SweepPoint[];
  readonly #x: PlotScale;
  readonly #y: PlotScale;
  readonly #box = svg("g", { class: "cursor-cell" });

  constructor(state: SweepState, actions: SweepActions, width: number) {
    this.#state = state;
    this.#cells = cellsOf(state);
    const drawn = drawCells(state, this.#cells, actions, width);
    this.#x = drawn.scale("x");
    this.#y = drawn.scale("y");
    const size = { width: this.#x?.bandwidth ?? 0, height: this.#y?.bandwidth ?? 0 };
    this.#box.append(...["under", "over"].map((part) => svg("rect", { ...size, class: part })));
    drawn.append(this.#box);
    this.showCursor();
    listenForPoints(drawn, actions, (x, y) => this.#cellAt(x, y));
    const legend = this.#cells.length > 0 ? colourLegend(drawn, state.y, width) : null;
    this.node = el("div", {}, legend, drawn);
  }

  showCursor(): void {
    const { cursor } = this.#state;
    const isIn = this.#cells.includes(cursor);
    this.#box.setAttribute("visibility", isIn ? "visible" : "hidden");
    if (isIn) this.#box.setAttribute("transform", `translate(${this.#corner(cursor).join(" ")})`);
  }

  #cellAt(x: number, y: number): SweepPoint | null {
    const [width, height] = [this.#x?.bandwidth ?? 0, this.#y?.bandwidth ?? 0];
    const isInside = (point: SweepPoint) => {
      const [left, top] = this.#corner(point);
      return x >= left && x < left + width && y >= top && y < top + height;
    };
    return this.#cells.find(isInside) ?? null;
  }

  #corner(point: SweepPoint): readonly [left: number, top: number] {
    const { column, row } = placesOf(this.#state);
    return [this.#x?.apply(column(point)) ?? 0, this.#y?.apply(row(point)) ?? 0];
  }
}

/** Which column and row a point stands in. */
function placesOf({ axes: { across, up } }: SweepState) {
  return {
    column: (point: SweepPoint) => point.steps[across],
    row: (point: SweepPoint) => (up === null ? point.routing : point.steps[up]),
  };
}

function drawCells(
  state: SweepState,
  cells: readonly SweepPoint[],
  actions: SweepActions,
  width: number,
): DrawnPlot {
  const { column, row } = placesOf(state);
  const marginLeft = state.axes.up === null ? Math.min(190, width * 0.38) : 60;
  const rows = rowsOf(state, cells);
  const height = Math.max(160, Math.min(420, 70 + 26 * rows.length));
  return drawPlot({
    ...plotFrame(width, height),
    marginLeft,
    marginRight: 12,
    x: columnScale(state, cells, Math.max(2, Math.floor((width - marginLeft) / 46))),
    y: rowScale(state, rows, Math.floor(height / 22), (id) =>
      beginningOf(actions.nameOf(id), marginLeft / 7),
    ),
    color: { type: "linear", scheme: "cividis" },
    marks: [
      Plot.cell(cells, {
        x: column,
        y: row,
        fill: (point: SweepPoint) => drawnFigure(point, state.y),
        shapeRendering: "crispEdges",
      }),
      Plot.dot(
        cells.filter(({ front }) => front),
        { x: column, y: row, r: 4, fill: "#ffffff", stroke: "#000000", strokeWidth: 1.5 },
      ),
    ],
  });
}

function columnScale(
  { sweep, axes: { across } }: SweepState,
  cells: readonly SweepPoint[],
  mostTicks: number,
) {
  const columns = stepsIn(cells, across).sort((a, b) => a - b);
  return {
    type: "band",
    domain: columns,
    label: groupTitle(sweep, across),
    labelAnchor: "center",
    labelArrow: "none",
    ticks: thinned(columns, mostTicks),
    tickFormat: (step: number) => stepText(sweep, across, step),
    padding: 0,
  } as const;
}

/** Routings, or steps from the top down. */
const rowsOf = ({ sweep, axes: { up } }: SweepState, cells: readonly SweepPoint[]) =>
  up === null ? sweep.routings : stepsIn(cells, up).sort((a, b) => b - a);

function rowScale(
  { sweep, axes: { up } }: SweepState,
  rows: readonly (string | number)[],
  mostTicks: number,
  routingName: (id: string) => string,
) {
  return {
    type: "band",
    domain: rows,
    label: up === null ? "routing" : groupTitle(sweep, up),
    labelArrow: "none",
    ticks: thinned(rows, mostTicks),
    tickFormat: up === null ? routingName : (step: number) => stepText(sweep, up, step),
    padding: 0,
  } as const;
}

const stepsIn = (cells: readonly SweepPoint[], group: number): number[] => [
  ...new Set(cells.map(({ steps }) => steps[group])),
];

/** Evenly spread ones of a list, about `most` at most. */
const thinned = <T>(all: readonly T[], most: number): T[] =>
  all.filter((_, n) => n % Math.ceil(all.length / most) === 0);

const beginningOf = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, Math.max(3, Math.floor(most) - 1)).trimEnd()}\u2026` : text;

function colourLegend(drawn: DrawnPlot, measure: string, width: number): Element | null {
  const color = drawn.scale("color");
  if (!color) return null;
  return Plot.legend({
    color: { ...color, label: measureTitle(measure) },
    width: Math.min(260, width - 20),
    marginLeft: 10,
    style: { background: "none", color: "inherit", fontFamily: "inherit", fontSize: "12px" },
  });
}
