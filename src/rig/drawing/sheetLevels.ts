import { levels } from "./levels.js";
import type { Round } from "./rounds.js";
import type { Rows } from "./rows.js";
import { spacing } from "./spacing.js";

/** How far down the sheet everything is, px. */
export interface SheetLevels {
  readonly height: number;
  /** By spot, its top. */
  readonly tops: ReadonlyMap<number, number>;
  /** Where a cable runs back below its row. */
  readonly lanes: ReadonlyMap<Round, number>;
}

/** Row under row, and under each the lanes of the cables that leave it. */
export function sheetLevels(graph: Rows, rounds: readonly Round[]): SheetLevels {
  const tops = new Map<number, number>();
  const lanes = new Map<Round, number>();
  let bottom: number = spacing.margin - spacing.boxes;
  graph.rows.forEach((layers, row) => {
    const rowTop = bottom + spacing.boxes;
    const spots = new Set(layers.flat());
    const links = graph.ways.flat().filter(({ from }) => spots.has(from));
    for (const [spot, top] of levels(graph.spots, layers, links)) {
      tops.set(spot, rowTop + top);
      bottom = Math.max(bottom, rowTop + top + graph.spots[spot].height);
    }
    // What leaves lowest turns back first, so that none of them cross.
    const leaving = rounds.filter((round) => round.row === row);
    leaving.sort((a, b) => (tops.get(b.from) ?? 0) - (tops.get(a.from) ?? 0));
    leaving.forEach((round, n) => {
      bottom += n === 0 ? spacing.boxAndCable : spacing.cables;
      lanes.set(round, bottom);
    });
  });
  return { height: bottom + spacing.margin, tops, lanes };
}
