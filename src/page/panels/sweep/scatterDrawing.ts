import { svg } from "../../widgets/dom.js";
import { type DrawnPlot, drawPlot, type Markish, Plot, type PlotScale } from "../../widgets/plots/plot.js";
import { plotFrame } from "../../widgets/plots/plotFrame.js";
import { routingMark } from "../../widgets/routingMark.js";
import { drawnFigure, measureTitle } from "./measureNames.js";
import { listenForPoints, type PointDrawing, type SweepActions } from "./sweepPlot.js";
import type { SweepPoint } from "./sweepPoints.js";
import type { SweepState } from "./sweepState.js";

/** How near the pointer must be to a mark to read it, px. */
const reachPx = 24;

/** The marks of all settings in sight, with a ring about the one that is read. */
export class ScatterDrawing implements PointDrawing {
  readonly node: DrawnPlot;
  readonly #state: SweepState;
  readonly #points: readonly SweepPoint[];
  readonly #x: PlotScale;
  readonly #y: PlotScale;
  readonly #ring = svg("circle", { r: 10, class: "cursor" });

  constructor(state: SweepState, actions: SweepActions, width: number) {
    this.#state = state;
    this.#points = state.inSight();
    this.node = drawMarks(state, this.#points, width);
    this.#x = this.node.scale("x");
    this.#y = this.node.scale("y");
    this.node.append(this.#ring);
    this.showCursor();
    const spots = this.#points.map((point) => ({ point, at: this.#spot(point) }));
    listenForPoints(this.node, actions, (x, y) => nearest(spots, x, y));
  }

  showCursor(): void {
    const { cursor } = this.#state;
    const isIn = this.#points.includes(cursor);
    this.#ring.setAttribute("visibility", isIn ? "visible" : "hidden");
    if (!isIn) return;
    const [x, y] = this.#spot(cursor);
    this.#ring.setAttribute("cx", String(x));
    this.#ring.setAttribute("cy", String(y));
  }

  #spot(point: SweepPoint): readonly [x: number, y: number] {
    const { x, y } = this.#state;
    return [this.#x?.apply(drawnFigure(point, x)) ?? 0, this.#y?.apply(drawnFigure(point, y)) ?? 0];
  }
}

interface PlacedPoint {
  readonly point: SweepPoint;
  readonly at: readonly [x: number, y: number];
}

function nearest(spots: readonly PlacedPoint[], x: number, y: number): SweepPoint | null {
  let best: SweepPoint | null = null;
  let least = reachPx ** 2;
  for (const { point, at } of spots) {
    const far = (at[0] - x) ** 2 + (at[1] - y) ** 2;
    if (far < least) [best, least] = [point, far];
  }
  return best;
}

function drawMarks(state: SweepState, points: readonly SweepPoint[], width: number) {
  const isNarrow = width < 480;
  const { routings } = state.sweep;
  return drawPlot({
    ...plotFrame(width, Math.max(300, Math.min(460, width * 0.6))),
    marginRight: 20,
    x: {
      label: measureTitle(state.x),
      labelAnchor: "center",
      labelArrow: "none",
      grid: true,
      nice: true,
      ticks: isNarrow ? 4 : 8,
    },
    y: { label: measureTitle(state.y), labelArrow: "none", grid: true, nice: true },
    marks: routings.flatMap((routing) => {
      const ofRouting = points.filter((point) => point.routing === routing);
      return ofRouting.length === 0 ? [] : marksOf(state, routing, ofRouting, isNarrow);
    }),
  });
}

/** All of one routing, and once more those on the front, larger and ringed. */
function marksOf(
  { x, y, sweep }: SweepState,
  routing: string,
  points: readonly SweepPoint[],
  isNarrow: boolean,
): Markish[] {
  const { colour, symbol } = routingMark(routing, sweep.routings);
  const look = {
    x: (point: SweepPoint) => drawnFigure(point, x),
    y: (point: SweepPoint) => drawnFigure(point, y),
    symbol,
    fill: colour,
  };
  return [
    Plot.dot(points, {
      ...look,
      r: 3,
      fillOpacity: (point: SweepPoint) => (point.meets === false ? 0.3 : 0.85),
    }),
    Plot.dot(
      points.filter((point) => point.front),
      { ...look, r: isNarrow ? 4 : 5.5, stroke: "currentColor", strokeWidth: 1.5 },
    ),
  ];
}
