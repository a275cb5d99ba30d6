import { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { settingsWords } from "./knobNames.js";
import { figureWords, measureTitle } from "./measureNames.js";
import { ScatterDrawing } from "./scatterDrawing.js";
import type { SweepActions, SweepPlot } from "./sweepPlot.js";
import type { SweepState } from "./sweepState.js";
import { sweepTable } from "./sweepTable.js";

/** Two measures against each other, a mark a setting. */
export class SweepScatter implements SweepPlot {
  readonly #figure: PlotFigure;
  #drawing: ScatterDrawing | null = null;

  constructor(state: SweepState, actions: SweepActions) {
    this.#figure = new PlotFigure({
      title: "The trade-off of the settings",
      reads: readingHelp(state),
      wide: true,
      draw: (width) => {
        this.#drawing = new ScatterDrawing(state, actions, width);
        return this.#drawing.node;
      },
      summary: () => summary(state, actions),
      table: () => sweepTable(state, actions),
    });
  }

  get node(): HTMLElement {
    return this.#figure.node;
  }
  update(): void {
    this.#figure.update();
  }
  showCursor(): void {
    this.#drawing?.showCursor();
  }
}

function readingHelp({ sweep: { aims, want } }: SweepState): string {
  const better = aims.map((aim) => `${measureTitle(aim.measure)}, the ${aim.better} the better`).join("; ");
  return (
    `A mark is one setting of one routing. Ringed: on the front, where no other is better in every chosen measure (${better}).` +
    (want.length > 0 ? " Faint: misses a wish." : "")
  );
}

function summary({ points, x, y, sweep }: SweepState, { nameOf }: SweepActions): string {
  const front = points.filter((point) => point.front).length;
  const [best] = points;
  const met = sweep.want.length === 0 ? "" : best.meets ? ", meets every wish" : ", misses a wish";
  return (
    `First of all: setting ${best.setting} of ${nameOf(best.routing)} (${settingsWords(best)}): ` +
    `${figureWords(best, y)}, ${figureWords(best, x)}${met}. On the front: ${front} of ${points.length} drawn.`
  );
}
