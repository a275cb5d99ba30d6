import type { PageSweep } from "../../../work/sweep/pageSweep.js";
import { type SweepPoint, sweepPoints } from "./sweepPoints.js";

/** What a plot of a sweep does beside being drawn: a point under the pointer is read, a click sets the rig to it. */
export interface SweepPlotActs {
  read(point: SweepPoint): void;
  hear(point: SweepPoint): void;
  nameOf(routing: string): string;
}

/** What of a sweep is looked at: the measures that are drawn, the routings in sight, and the point that is read. */
export interface SweepState {
  readonly sweep: PageSweep;
  readonly points: readonly SweepPoint[];
  x: string;
  y: string;
  /** Null: all. */
  routing: string | null;
  frontOnly: boolean;
  cursor: SweepPoint;
  /** In sight, from the least on the level axis to the most. */
  inSight(): readonly SweepPoint[];
  /** In this routing, the point whose knobs stand nearest to these steps. */
  nearest(routing: string, steps: readonly number[], among?: readonly SweepPoint[]): SweepPoint;
}

/** @throws RangeError for a sweep without points */
export function sweepState(sweep: PageSweep): SweepState {
  const points = sweepPoints(sweep);
  const measures = Object.keys(sweep.figures);
  const [first, second] = [...new Set([...sweep.aims.map(({ measure }) => measure), ...measures])];
  if (points.length === 0 || first === undefined) throw new RangeError("this sweep has no points");
  const lengths = sweep.vary.map((group) => Math.max(1, (group[0]?.values.length ?? 1) - 1));
  return {
    sweep,
    points,
    x: second ?? first,
    y: first,
    routing: null,
    frontOnly: false,
    cursor: points[0],
    inSight() {
      const { x, y, routing, frontOnly } = this;
      return points
        .filter(
          (point) =>
            (routing === null || point.routing === routing) &&
            (!frontOnly || point.front) &&
            (point.figures[x] ?? null) !== null &&
            (point.figures[y] ?? null) !== null,
        )
        .sort((a, b) => Number(a.figures[x]) - Number(b.figures[x]) || a.rank - b.rank);
    },
    nearest(routing, steps, among = points) {
      const far = (point: SweepPoint) =>
        steps.reduce((sum, step, g) => sum + ((step - point.steps[g]) / lengths[g]) ** 2, 0);
      return among
        .filter((point) => point.routing === routing)
        .reduce((best, point) => (far(point) < far(best) ? point : best));
    },
  };
}
