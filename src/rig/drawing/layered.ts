import { leastStretch } from "./leastStretch.js";

/** A cable by the numbers of its boxes, and how far down each its jack is. */
export interface Span {
  readonly from: number;
  readonly fromY: number;
  readonly to: number;
  readonly toY: number;
  /** Comes back to a box before its own, as no wiring that plays has it. */
  readonly isBack: boolean;
}

/** Boxes in layers, from left to right, and cables in links, each from one layer to the next. */
export interface Layered {
  readonly spots: readonly Spot[];
  /** Numbers of spots, from top to bottom. */
  readonly layers: readonly (readonly number[])[];
  /** By cable, from its output to its input. Where a link does not begin at the spot where the last ended, the cable goes
   *  round, from the right end of a row to the left of one. */
  readonly ways: readonly (readonly Link[])[];
}
/** A box, or where a cable passes between the boxes of a layer: then it has no height. The boxes come first. */
export interface Spot {
  readonly isBox: boolean;
  readonly height: number;
}
export interface Link {
  readonly from: number;
  readonly fromY: number;
  readonly to: number;
  readonly toY: number;
}

/**
 * The layers of a drawing: every box behind all that feed it, and cables that span as few layers as can be. Source:
 * Sugiyama, Tagawa and Toda, Methods for visual understanding of hierarchical system structures, 1981, steps I and II.
 */
export function layered(heights: readonly number[], spans: readonly (Span | null)[]): Layered {
  const layerOf = boxLayers(heights.length, spans);
  const last = layerOf.reduce((most, layer) => Math.max(most, layer), 0);
  const spots: Spot[] = heights.map((height) => ({ isBox: true, height }));
  // One layer more at each end, for cables that go round; left out where there are none.
  const layers: number[][] = Array.from({ length: last + 3 }, () => []);
  layerOf.forEach((layer, box) => {
    layers[layer + 1].push(box);
  });
  const pass = (layer: number): number => {
    layers[layer].push(spots.length);
    return spots.push({ isBox: false, height: 0 }) - 1;
  };
  const passing = (first: number, end: number): number[] =>
    Array.from({ length: Math.max(0, end - first) }, (_, n) => pass(first + n));

  const ways = spans.map((span) => {
    if (!span) return [];
    const { from, to, isBack } = span;
    const leaves = layerOf[from] + 2;
    const arrives = layerOf[to] + 1;
    if (!isBack) return linksAlong(span, [from, ...passing(leaves, arrives), to]);
    const out = linksAlong(span, [from, ...passing(leaves, last + 3)]);
    return [...out, ...linksAlong(span, [...passing(0, arrives), to])];
  });
  return { spots, layers: layers.filter((layer) => layer.length > 0), ways };
}

function boxLayers(count: number, spans: readonly (Span | null)[]): readonly number[] {
  const forward = spans.flatMap((span) =>
    span && !span.isBack ? [{ from: span.from, to: span.to, least: 1, weight: 1 }] : [],
  );
  return [...leastStretch(count, forward)];
}

/** A cable's links along spots; only at its boxes it has a jack. */
function linksAlong(span: Span, spots: readonly number[]): readonly Link[] {
  return spots.slice(1).map((to, n) => ({
    from: spots[n],
    fromY: spots[n] === span.from ? span.fromY : 0,
    to,
    toY: to === span.to ? span.toY : 0,
  }));
}
