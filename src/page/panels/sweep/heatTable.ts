import { wordingOf } from "../../../work/sweep/figures.js";
import { table } from "../../widgets/dataTable.js";
import { cellsOf } from "./heatCells.js";
import { groupTitle, stepText } from "./knobNames.js";
import { figureCell } from "./measureNames.js";
import type { SweepActions } from "./sweepPlot.js";
import type { SweepState } from "./sweepState.js";

/** Rows that the table has at most. */
const mostRows = 500;

/** The cells of the heat picture, a row each, in the order of their knobs. */
export function heatTable(state: SweepState, { nameOf }: SweepActions): HTMLTableElement {
  const { sweep, y, cursor, axes } = state;
  const { name, unit } = wordingOf(y);
  const groups = axes.up === null ? [axes.across] : [axes.across, axes.up];
  const cells = [...cellsOf(state)].sort((a, b) =>
    groups.reduce((order, g) => order || a.steps[g] - b.steps[g], 0),
  );
  return table(
    axes.up === null ? name : `${name}, ${nameOf(cursor.routing)}`,
    [
      ...groups.map((group) => ({ heading: groupTitle(sweep, group), text: true })),
      ...(axes.up === null ? [{ heading: "routing", text: true }] : []),
      { heading: name, unit },
      { heading: "front", text: true },
    ],
    cells
      .slice(0, mostRows)
      .map((point) => [
        ...groups.map((group) => stepText(sweep, group, point.steps[group])),
        ...(axes.up === null ? [nameOf(point.routing)] : []),
        figureCell(point, y),
        point.front ? "yes" : "no",
      ]),
  );
}
