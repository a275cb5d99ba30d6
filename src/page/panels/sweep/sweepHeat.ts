import { wordingOf } from "../../../work/sweep/figures.js";
import { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { cellsOf, extremes, sliceOf } from "./heatCells.js";
import { HeatDrawing } from "./heatDrawing.js";
import { heatTable } from "./heatTable.js";
import { figureCell } from "./measureNames.js";
import type { SweepActions, SweepPlot } from "./sweepPlot.js";
import type { SweepState } from "./sweepState.js";

/** One measure over two groups of knobs, in the routing of the point that is read; other knobs stand as they do there. */
export class SweepHeat implements SweepPlot {
  readonly #state: SweepState;
  readonly #figure: PlotFigure;
  #drawing: HeatDrawing | null = null;
  /** The slice that is drawn. */
  #slice = "";

  constructor(state: SweepState, actions: SweepActions) {
    this.#state = state;
    this.#figure = new PlotFigure({
      title: "Over the knobs",
      reads:
        "A cell is one setting; its colour is the measure. Dotted: on the front. Where there are more knobs than two, the others stand as in the setting that is read.",
      wide: true,
      draw: (width) => {
        this.#drawing = new HeatDrawing(state, actions, width);
        return this.#drawing.node;
      },
      summary: () => summary(state, actions),
      table: () => heatTable(state, actions),
    });
  }

  get node(): HTMLElement {
    return this.#figure.node;
  }
  update(): void {
    this.#slice = sliceOf(this.#state);
    this.#figure.update();
  }
  showCursor(): void {
    if (sliceOf(this.#state) === this.#slice) this.#drawing?.showCursor();
    else this.update();
  }
}

function summary(state: SweepState, { nameOf }: SweepActions): string {
  const { y, axes, cursor } = state;
  const { least, most } = extremes(cellsOf(state), y);
  const { name, unit } = wordingOf(y);
  const where = axes.up === null ? "all routings" : nameOf(cursor.routing);
  return least && most
    ? `${name} in ${where}: from ${figureCell(least, y)} to ${figureCell(most, y)} ${unit}.`
    : "Nothing to draw here.";
}
