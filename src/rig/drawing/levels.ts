import type { Link, Spot } from "./layered.js";
import { leastStretch } from "./leastStretch.js";
import { spacing } from "./spacing.js";
import { type Apart, straighten, type Tie } from "./straighten.js";

/**
 * How far down each spot of a row is, so that cables run straight where they can: first the sum of all differences in level
 * is made least, where a cable that passes layers counts more, then bends are traded for small differences.
 * Source of the first: Gansner, Koutsofios, North and Vo 1993, section 4.2.
 *
 * @param layers  numbers of spots, from top to bottom
 * @param links   those between these layers
 * @returns by spot, its top, px; 0 at the highest
 */
export function levels(
  spots: readonly Spot[],
  layers: readonly (readonly number[])[],
  links: readonly Link[],
): ReadonlyMap<number, number> {
  const numbers = new Map(layers.flat().map((spot, n) => [spot, n]));
  const number = (spot: number): number => numbers.get(spot) ?? 0;
  const layerOf = new Map(layers.flatMap((layer, n) => layer.map((spot) => [spot, n] as const)));
  const apart: Apart[] = layers.flatMap((layer) =>
    layer.slice(1).map((lower, n) => ({
      from: number(layer[n]),
      to: number(lower),
      least: spots[layer[n]].height + gap(spots[layer[n]], spots[lower]),
    })),
  );
  const ties: Tie[] = links.map((link) => ({
    ...link,
    from: number(link.from),
    to: number(link.to),
    weight: weightOf(spots[link.from], spots[link.to]),
    channel: layerOf.get(link.from) ?? 0,
  }));
  const tops = leastDrops(numbers.size, ties, apart);
  straighten(tops, ties, apart);
  const highest = tops.reduce((least, top) => Math.min(least, top), Number.POSITIVE_INFINITY);
  return new Map([...numbers].map(([spot, n]) => [spot, tops[n] - highest]));
}

/** A tie is a point above both its ends, as near as can be: its distances to both add up to their difference in level. */
function leastDrops(count: number, ties: readonly Tie[], apart: readonly Apart[]): Float64Array {
  const stretches = ties.flatMap(({ from, fromY, to, toY, weight }, n) => [
    { from: count + n, to: from, least: -fromY, weight },
    { from: count + n, to, least: -toY, weight },
  ]);
  const gaps = apart.map((one) => ({ ...one, weight: 0 }));
  return leastStretch(count + ties.length, [...gaps, ...stretches]).slice(0, count);
}

function gap(upper: Spot, lower: Spot): number {
  if (upper.isBox && lower.isBox) return spacing.boxes;
  return upper.isBox || lower.isBox ? spacing.boxAndCable : spacing.cables;
}

/** As in the source: a bend where a cable passes a layer is one that need not be. */
function weightOf(from: Spot, to: Spot): number {
  if (from.isBox && to.isBox) return 1;
  return from.isBox || to.isBox ? 2 : 8;
}
