import { type Channel, channel, type Point } from "./channel.js";
import type { Link } from "./layered.js";
import { type Round, roundsOf } from "./rounds.js";
import type { Rows } from "./rows.js";
import { type SheetLevels, sheetLevels } from "./sheetLevels.js";
import { spacing } from "./spacing.js";

/** Where all is, px. */
export interface Placed {
  readonly width: number;
  readonly height: number;
  /** By spot, its upper left corner. */
  readonly corners: ReadonlyMap<number, Point>;
  /** By cable, its bends from jack to jack. */
  readonly bends: readonly (readonly Point[])[];
  /** By row and layer: its width with the channel behind it. */
  readonly widths: readonly (readonly number[])[];
}

/** Gives every spot its place and every cable its bends; `boxWidths` by spot, none for passing cables. */
export function placed(graph: Rows, boxWidths: readonly number[]): Placed {
  const rounds = roundsOf(graph);
  const linksFrom: Link[][] = graph.spots.map(() => []);
  for (const link of graph.ways.flat()) linksFrom[link.from].push(link);
  const down = sheetLevels(graph, rounds);
  const arrivals = arriving(rounds, down);
  // The margin serves as the room on the outer side of a channel at the edge.
  const outer = spacing.margin - spacing.boxAndTrack;
  const left = Math.max(spacing.margin, outer + arrivals.width);
  const rows = graph.rows.map((layers, row) => {
    const leaving = rounds.filter((round) => round.row === row);
    return placedRow(graph, layers, leaving, { boxWidths, linksFrom, down, left });
  });
  const links = new Map(rows.flatMap((row) => [...row.links]));
  const turns = new Map(rows.flatMap((row) => [...row.turns]));
  const arrive = new Map(rounds.map((round, n) => [round.from, arrivals.corners(n, outer)]));
  return {
    width: Math.max(0, ...rows.map(({ right }) => right)) + spacing.margin,
    height: down.height,
    corners: new Map(rows.flatMap((row) => [...row.corners])),
    bends: graph.ways.map((way) =>
      way.flatMap((link) => [
        ...(links.get(link) ?? []),
        ...(turns.get(link.to) ?? []),
        ...(arrive.get(link.to) ?? []),
      ]),
    ),
    widths: rows.map(({ widths }) => widths),
  };
}

interface Sheet {
  readonly boxWidths: readonly number[];
  /** By spot. */
  readonly linksFrom: readonly (readonly Link[])[];
  readonly down: SheetLevels;
  /** Where rows begin. */
  readonly left: number;
}

interface PlacedRow {
  readonly right: number;
  readonly widths: readonly number[];
  readonly corners: ReadonlyMap<number, Point>;
  readonly links: ReadonlyMap<Link, readonly Point[]>;
  /** Where cables leave the row, by the spot at its end. */
  readonly turns: ReadonlyMap<number, readonly Point[]>;
}

function placedRow(
  graph: Rows,
  layers: readonly (readonly number[])[],
  leaving: readonly Round[],
  { boxWidths, linksFrom, down, left }: Sheet,
): PlacedRow {
  const corners = new Map<number, Point>();
  const bends = new Map<Link, readonly Point[]>();
  const widths: number[] = [];
  let x = left;
  for (const [n, layer] of layers.entries()) {
    const boxWidth = (spot: number): number => boxWidths[spot] ?? 0;
    const width = Math.max(...layer.map(boxWidth));
    for (const spot of layer)
      corners.set(spot, { x: x + Math.round((width - boxWidth(spot)) / 2), y: down.tops.get(spot) ?? 0 });
    const links = layer.flatMap((spot) => linksFrom[spot]);
    const behind = passing(links, down, leastWidth(graph, layer, layers[n + 1]));
    links.forEach((link, k) => {
      bends.set(link, behind.corners(k, x + width));
    });
    widths.push(width + behind.width);
    x += width + behind.width;
  }
  const end = departing(leaving, down);
  const turns = new Map(leaving.map((round, n) => [round.from, end.corners(n, x)]));
  return { right: x + Math.max(0, end.width - spacing.boxAndTrack), widths, corners, links: bends, turns };
}

/** Between two layers; no more is needed where cables alone begin or end a row. */
function leastWidth({ spots }: Rows, layer: readonly number[], next: readonly number[] | undefined): number {
  if (!next) return 0;
  const hasBox = (some: readonly number[]) => some.some((spot) => spots[spot].isBox);
  return hasBox(layer) && hasBox(next) ? spacing.layers : spacing.boxAndTrack;
}

const passing = (links: readonly Link[], { tops }: SheetLevels, least: number): Channel =>
  channel(
    links.map(({ from, fromY, to, toY }) => ({
      from: (tops.get(from) ?? 0) + fromY,
      fromSide: "left",
      to: (tops.get(to) ?? 0) + toY,
      toSide: "right",
    })),
    least,
  );

const departing = (rounds: readonly Round[], { tops, lanes }: SheetLevels): Channel =>
  channel(
    rounds.map((round) => ({
      from: tops.get(round.from) ?? 0,
      fromSide: "left",
      to: lanes.get(round) ?? 0,
      toSide: "left",
    })),
    0,
  );

const arriving = (rounds: readonly Round[], { tops, lanes }: SheetLevels): Channel =>
  channel(
    rounds.map((round) => ({
      from: lanes.get(round) ?? 0,
      fromSide: "right",
      to: tops.get(round.to) ?? 0,
      toSide: "right",
    })),
    0,
  );
