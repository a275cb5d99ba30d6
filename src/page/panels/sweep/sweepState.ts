import { stepsOf } from "../../../work/sweep/grid.js";
import type { PageSweep } from "../../../work/sweep/pageSweep.js";
import { type SweepPoint, sweepPoints } from "./sweepPoints.js";

/** Groups of knobs, by number, that the cells of the heat picture stand over. */
export interface CellAxes {
  readonly across: number;
  /** Null where only one group is varied: the routings stand there. */
  readonly up: number | null;
}

/** What of a sweep is looked at: the measures that are drawn, the routings in sight, and the point that is read. */
export class SweepState {
  readonly sweep: PageSweep;
  /** The best first. */
  readonly points: readonly SweepPoint[];
  x: string;
  y: string;
  /** Null: all. */
  routing: string | null = null;
  frontOnly = false;
  cursor: SweepPoint;
  axes: CellAxes;
  /** Steps from end to end of each group of knobs. */
  readonly #lengths: readonly number[];

  /** @throws RangeError for a sweep without points */
  constructor(sweep: PageSweep) {
    const measures = [...sweep.aims.map(({ measure }) => measure), ...Object.keys(sweep.figures)];
    const [first, second] = new Set(measures);
    this.sweep = sweep;
    this.points = sweepPoints(sweep);
    if (this.points.length === 0 || first === undefined) throw new RangeError("this sweep has no points");
    this.x = second ?? first;
    this.y = first;
    this.cursor = this.points[0];
    this.axes = usualAxes(sweep);
    this.#lengths = sweep.vary.map((group) => Math.max(1, stepsOf(group) - 1));
  }

  /** In sight, from the least on the axis across to the most. */
  inSight(): readonly SweepPoint[] {
    const { x } = this;
    return this.points
      .filter((point) => this.#isInSight(point))
      .sort((a, b) => Number(a.figures[x]) - Number(b.figures[x]) || a.rank - b.rank);
  }

  /** In this routing, the point whose knobs stand nearest to these steps. */
  nearest(routing: string, steps: readonly number[], among = this.points): SweepPoint {
    const far = (point: SweepPoint) =>
      steps.reduce((sum, step, g) => sum + ((step - point.steps[g]) / this.#lengths[g]) ** 2, 0);
    return among
      .filter((point) => point.routing === routing)
      .reduce((best, point) => (far(point) < far(best) ? point : best));
  }

  #isInSight({ routing, front, figures }: SweepPoint): boolean {
    return (
      (this.routing === null || routing === this.routing) &&
      (!this.frontOnly || front) &&
      (figures[this.x] ?? null) !== null &&
      (figures[this.y] ?? null) !== null
    );
  }
}

/** Most steps across, so that cells are wide; the next most upright. */
function usualAxes({ vary }: PageSweep): CellAxes {
  const steps = (g: number) => stepsOf(vary[g]);
  const [across, up] = vary.map((_, g) => g).sort((a, b) => steps(b) - steps(a) || a - b);
  return { across: across ?? 0, up: up !== undefined && steps(up) > 1 ? up : null };
}
