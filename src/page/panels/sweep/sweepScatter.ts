import { svg } from "../../widgets/dom.js";
import { frame } from "../../widgets/plots/lines.js";
import { drawPlot, Plot } from "../../widgets/plots/plot.js";
import { type PlotFigure, plotFigure } from "../../widgets/plots/plotFigure.js";
import { routingMark } from "../../widgets/routingMark.js";
import { drawnFigure, figureWords, measureTitle, type SweepPoint, settingsWords } from "./sweepPoints.js";
import type { SweepPlotActs, SweepState } from "./sweepState.js";
import { sweepTable } from "./sweepTable.js";

export interface SweepPlot extends PlotFigure {
  /** Shows where the point is that is read now. */
  point(): void;
}

/** Two measures against each other, a mark a setting. */
export function sweepScatter(state: SweepState, acts: SweepPlotActs): SweepPlot {
  let place = () => {};
  const figure = plotFigure({
    title: "The trade-off of the settings",
    reads: `A mark is one setting of one routing. Ringed: on the front, where no other is better in every chosen measure (${state.sweep.aims
      .map(({ measure, better }) => `${measureTitle(measure)}, the ${better} the better`)
      .join("; ")}).${state.sweep.want.length > 0 ? " Faint: misses a wish." : ""}`,
    wide: true,
    draw: (width) => {
      const { drawn, moved } = scatter(state, acts, width);
      place = moved;
      return drawn;
    },
    summary: () => summary(state, acts),
    table: () => sweepTable(state, acts),
  });
  return { ...figure, point: () => place() };
}

function scatter(state: SweepState, acts: SweepPlotActs, width: number) {
  const points = state.inSight();
  const { x, y, sweep } = state;
  const look = (routing: string) => routingMark(routing, sweep.routings);
  const groups = sweep.routings.map((routing) => points.filter((point) => point.routing === routing));
  const drawn = drawPlot({
    ...frame(width, Math.max(300, Math.min(460, width * 0.6))),
    marginRight: 20,
    x: {
      label: measureTitle(x),
      labelAnchor: "center",
      labelArrow: "none",
      grid: true,
      nice: true,
      ticks: width < 480 ? 4 : 8,
    },
    y: { label: measureTitle(y), labelArrow: "none", grid: true, nice: true },
    marks: groups.flatMap((group) => {
      if (group.length === 0) return [];
      const { colour, symbol } = look(group[0].routing);
      const front = group.filter((point) => point.front);
      const at = {
        x: (point: SweepPoint) => drawnFigure(point, x),
        y: (point: SweepPoint) => drawnFigure(point, y),
        symbol,
      };
      return [
        Plot.dot(group, {
          ...at,
          r: 3,
          fill: colour,
          fillOpacity: (point: SweepPoint) => (point.meets === false ? 0.3 : 0.85),
        }),
        Plot.dot(front, {
          ...at,
          r: width < 480 ? 4 : 5.5,
          fill: colour,
          stroke: "currentColor",
          strokeWidth: 1.5,
        }),
      ];
    }),
  });
  const [across, up] = [drawn.scale("x"), drawn.scale("y")];
  const spot = (point: SweepPoint): [number, number] => [
    across?.apply(drawnFigure(point, x)) ?? 0,
    up?.apply(drawnFigure(point, y)) ?? 0,
  ];
  const ring = svg("circle", { r: 10, class: "cursor" });
  drawn.append(ring);
  const moved = () => {
    const [cx, cy] = spot(state.cursor);
    const isIn = points.includes(state.cursor);
    ring.setAttribute("visibility", isIn ? "visible" : "hidden");
    if (!isIn) return;
    ring.setAttribute("cx", String(cx));
    ring.setAttribute("cy", String(cy));
  };
  moved();
  const spots = points.map((point) => ({ point, at: spot(point) }));
  listen(drawn, acts, (px, py) => {
    let best: SweepPoint | null = null;
    let least = 24 ** 2;
    for (const { point, at } of spots) {
      const far = (at[0] - px) ** 2 + (at[1] - py) ** 2;
      if (far < least) [best, least] = [point, far];
    }
    return best;
  });
  return { drawn, moved };
}

/** Reads the point under the pointer, and sets the rig to it at a click. */
export function listen(
  drawn: Element,
  acts: SweepPlotActs,
  under: (x: number, y: number) => SweepPoint | null,
): void {
  const find = ({ clientX, clientY }: MouseEvent) => {
    const { left, top } = drawn.getBoundingClientRect();
    return under(clientX - left, clientY - top);
  };
  const on = (kind: "pointermove" | "click", act: (point: SweepPoint) => void) =>
    drawn.addEventListener(kind, (event) => {
      const point = event instanceof MouseEvent ? find(event) : null;
      if (point) act(point);
    });
  on("pointermove", acts.read);
  on("click", acts.hear);
}

function summary(state: SweepState, { nameOf }: SweepPlotActs): string {
  const { points, x, y, sweep } = state;
  const front = points.filter((point) => point.front).length;
  const [best] = points;
  const met = sweep.want.length === 0 ? "" : best.meets ? ", meets every wish" : ", misses a wish";
  return `First of all: setting ${best.setting} of ${nameOf(best.routing)} (${settingsWords(best)}): ${figureWords(best, y)}, ${figureWords(best, x)}${met}. On the front: ${front} of ${points.length} drawn.`;
}
