import type { SweepPoint } from "./sweepPoints.js";
import type { SweepState } from "./sweepState.js";

/** The points of the even grid that the heat picture draws: those in the slice of the point that is read. */
export function cellsOf(state: SweepState): readonly SweepPoint[] {
  const { cursor, y, axes } = state;
  const even = state.points.filter((point) => point.even);
  const beside = state.nearest(cursor.routing, cursor.steps, even);
  return even.filter(
    (point) =>
      (axes.up === null || point.routing === cursor.routing) &&
      (point.figures[y] ?? null) !== null &&
      point.steps.every((step, g) => g === axes.across || g === axes.up || step === beside.steps[g]),
  );
}

/** What the cells have in common: a point of another slice wants another picture. */
export function sliceOf({ cursor, y, axes: { across, up } }: SweepState): string {
  const rest = cursor.steps.map((step, g) => (g === across || g === up ? "" : step));
  return JSON.stringify([y, across, up, up === null ? "" : cursor.routing, rest]);
}

/** The cells with the smallest and the largest value; undefined where there is none. */
export function extremes(cells: readonly SweepPoint[], measure: string) {
  const rising = [...cells].sort((a, b) => Number(a.figures[measure]) - Number(b.figures[measure]));
  return { least: rising.at(0), most: rising.at(-1) };
}
