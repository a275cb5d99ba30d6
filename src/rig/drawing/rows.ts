import type { Layered, Link, Spot } from "./layered.js";

/** Layers in rows, one below the other. Where a row ends, cables go round to the next. */
export interface Rows extends Omit<Layered, "layers"> {
  /** By row, its layers. */
  readonly rows: readonly (readonly (readonly number[])[])[];
}

/** A row ends before each of these layers. */
export function inRows(graph: Layered, breaks: readonly number[]): Rows {
  const spots: Spot[] = [...graph.spots];
  const place = new Map(graph.layers.flatMap((layer) => layer.map((spot, n) => [spot, n] as const)));
  const layerOf = new Map(graph.layers.flatMap((layer, n) => layer.map((spot) => [spot, n] as const)));
  const isBroken = ({ to }: Link) => breaks.includes(layerOf.get(to) ?? -1);
  const broken = graph.ways.flat().filter(isBroken);
  broken.sort((a, b) => (place.get(a.from) ?? 0) - (place.get(b.from) ?? 0) || a.fromY - b.fromY);

  const halves = new Map<Link, readonly Link[]>();
  const rightEnds = new Map<number, number[]>();
  const leftEnds = new Map<number, number[]>();
  const newSpot = (at: Map<number, number[]>, layer: number): number => {
    const spot = spots.push({ isBox: false, height: 0 }) - 1;
    at.set(layer, [...(at.get(layer) ?? []), spot]);
    return spot;
  };
  for (const link of broken) {
    const layer = layerOf.get(link.to) ?? 0;
    halves.set(link, [
      { ...link, to: newSpot(rightEnds, layer), toY: 0 },
      { ...link, from: newSpot(leftEnds, layer), fromY: 0 },
    ]);
  }
  const starts = [0, ...breaks];
  const rows = starts.map((start, n) => {
    const end = starts[n + 1] ?? graph.layers.length;
    const ends = [leftEnds.get(start), rightEnds.get(end)].map((layer) => (layer ? [layer] : []));
    return [...ends[0], ...graph.layers.slice(start, end), ...ends[1]];
  });
  return { spots, rows, ways: graph.ways.map((way) => way.flatMap((link) => halves.get(link) ?? [link])) };
}

/**
 * Layers before which to begin a row, so that no row is wider than `widest`: as few rows as can be, then rows alike in
 * width, and few cables from one to the next.
 *
 * @param widths  of each layer with the channel behind it, px
 */
export function breaksFor(
  { layers, ways }: Layered,
  widths: readonly number[],
  widest: number,
): readonly number[] {
  const links = ways.flat();
  const cables = layers.map((layer) => links.filter(({ to }) => layer.includes(to)).length);
  const best: { rows: number; cost: number; start: number }[] = [{ rows: 0, cost: 0, start: 0 }];
  for (let end = 1; end <= widths.length; end++) {
    let width = 0;
    for (let start = end - 1; start >= 0; start--) {
      width += widths[start];
      if (width > widest && start < end - 1) break;
      const rows = best[start].rows + 1;
      const cost = best[start].cost + (1 - width / widest) ** 2 + (start > 0 ? cableCost * cables[start] : 0);
      const old = best[end];
      if (!old || rows < old.rows || (rows === old.rows && cost < old.cost))
        best[end] = { rows, cost, start };
    }
  }
  const breaks: number[] = [];
  for (let { start } = best[widths.length]; start > 0; start = best[start].start) breaks.unshift(start);
  return breaks;
}

/** What a cable from row to row costs, against the square of a row's empty share. */
const cableCost = 0.1;
