import type { Rows } from "./rows.js";

/** A cable on its way round: from the right end of a row along a lane below it to the left end of one. */
export interface Round {
  readonly row: number;
  /** Spots at the ends of the rows. */
  readonly from: number;
  readonly to: number;
}

export function roundsOf({ rows, ways }: Rows): readonly Round[] {
  const rowOf = new Map(rows.flatMap((layers, row) => layers.flat().map((spot) => [spot, row] as const)));
  return ways.flatMap((way) =>
    way.slice(1).flatMap((link, n) => {
      const from = way[n].to;
      return from === link.from ? [] : [{ row: rowOf.get(from) ?? 0, from, to: link.from }];
    }),
  );
}
