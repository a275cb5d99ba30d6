import type { Layered } from "./layered.js";

/** So many sweeps over all layers, there and back, without fewer crossings are the end of it. */
const patience = 4;
/** Beginnings at random that are tried where there are still crossings. */
const shuffles = 16;

/**
 * The same, with the spots of each layer in such an order that few cables cross: sweeps by the mean place of what a
 * spot is linked to, and swaps of neighbours for as long as crossings fall. Jacks have their places on a box and count.
 * The first beginning has what hangs at an upper jack above what hangs at a lower one, so that left stays above right.
 * Source: Sugiyama, Tagawa and Toda 1981, step III, the barycentric method; swaps after Eades and Kelly 1986.
 */
export function ordered(graph: Layered): Layered {
  const order = new LayerOrder(graph);
  let best = order.settle(firstOrder(graph, order.ahead));
  const random = randomFrom(graph.spots.length);
  for (let n = 0; n < shuffles && best.crossings > 0; n++) {
    const found = order.settle(graph.layers.map((layer) => shuffled(layer, random)));
    if (found.crossings < best.crossings) best = found;
  }
  return { ...graph, layers: best.layers };
}

/** Links of a spot on one side: their other ends, and where between 0 and 1 down each spot they are. */
interface End {
  readonly spot: number;
  readonly share: number;
  readonly ownShare: number;
}

interface Found {
  readonly layers: readonly (readonly number[])[];
  readonly crossings: number;
}

class LayerOrder {
  /** By spot. */
  readonly ahead: readonly (readonly End[])[];
  readonly #behind: readonly (readonly End[])[];
  readonly #places: Float64Array;

  constructor({ spots, ways }: Layered) {
    const ahead: End[][] = spots.map(() => []);
    const behind: End[][] = spots.map(() => []);
    const share = (spot: number, y: number) => (spots[spot].isBox ? y / spots[spot].height : 0.5);
    for (const { from, fromY, to, toY } of ways.flat()) {
      const [a, b] = [share(from, fromY), share(to, toY)];
      ahead[from].push({ spot: to, share: b, ownShare: a });
      behind[to].push({ spot: from, share: a, ownShare: b });
    }
    for (const ends of ahead) ends.sort((a, b) => a.ownShare - b.ownShare);
    this.ahead = ahead;
    this.#behind = behind;
    this.#places = new Float64Array(spots.length);
  }

  /** The best order on the way from a beginning. */
  settle(beginning: readonly (readonly number[])[]): Found {
    const layers = beginning.map((layer) => [...layer]);
    layers.forEach((layer) => {
      this.#number(layer);
    });
    let best: Found = { layers: beginning, crossings: this.#crossings(layers) };
    for (let sweep = 0, last = patience; sweep < last && best.crossings > 0; sweep++) {
      const isOnward = sweep % 2 === 0;
      for (const layer of isOnward ? layers : layers.toReversed())
        this.#sortByMean(layer, isOnward ? this.#behind : this.ahead);
      this.#swapNeighbours(layers);
      const crossings = this.#crossings(layers);
      if (crossings >= best.crossings) continue;
      best = { layers: layers.map((layer) => [...layer]), crossings };
      last = sweep + 1 + patience;
    }
    return best;
  }

  #number(layer: readonly number[]): void {
    layer.forEach((spot, place) => {
      this.#places[spot] = place;
    });
  }

  /** Spots by the mean place of their links; without any, they stay where they are. */
  #sortByMean(layer: number[], links: readonly (readonly End[])[]): void {
    const mean = (spot: number) => {
      const ends = links[spot];
      return ends.reduce((sum, end) => sum + this.#places[end.spot] + end.share, 0) / ends.length;
    };
    const linked = layer.filter((spot) => links[spot].length > 0);
    const means = new Map(linked.map((spot) => [spot, mean(spot)]));
    const sorted = linked.toSorted((a, b) => (means.get(a) ?? 0) - (means.get(b) ?? 0));
    let n = 0;
    layer.forEach((spot, place) => {
      if (links[spot].length > 0) layer[place] = sorted[n++];
    });
    this.#number(layer);
  }

  #swapNeighbours(layers: readonly number[][]): void {
    for (let falls = true; falls; ) {
      falls = false;
      for (const layer of layers) {
        for (let n = 1; n < layer.length; n++) {
          const [upper, lower] = [layer[n - 1], layer[n]];
          if (this.#between(lower, upper) >= this.#between(upper, lower)) continue;
          layer[n - 1] = lower;
          layer[n] = upper;
          this.#number(layer);
          falls = true;
        }
      }
    }
  }

  /** Crossings of the links of two spots of a layer, one above the other. */
  #between(upper: number, lower: number): number {
    let crossings = 0;
    for (const links of [this.ahead, this.#behind])
      for (const a of links[upper])
        for (const b of links[lower])
          if (this.#places[a.spot] + a.share > this.#places[b.spot] + b.share) crossings++;
    return crossings;
  }

  #crossings(layers: readonly (readonly number[])[]): number {
    let crossings = 0;
    for (const layer of layers) {
      const ends = layer.flatMap((spot) => this.ahead[spot]);
      const places = ends.map(({ spot, share }) => this.#places[spot] + share);
      for (let n = 1; n < places.length; n++)
        for (let k = 0; k < n; k++) if (places[k] > places[n]) crossings++;
    }
    return crossings;
  }
}

/** Each layer in the order in which its spots are come upon from the left, upper jacks first. */
function firstOrder({ layers }: Layered, ahead: readonly (readonly End[])[]): readonly (readonly number[])[] {
  const rank = new Map<number, number>();
  const visit = (start: number): void => {
    const stack = [start];
    for (let spot = stack.pop(); spot !== undefined; spot = stack.pop()) {
      if (rank.has(spot)) continue;
      rank.set(spot, rank.size);
      stack.push(...ahead[spot].map((end) => end.spot).toReversed());
    }
  };
  for (const spot of layers.flat()) visit(spot);
  return layers.map((layer) => layer.toSorted((a, b) => (rank.get(a) ?? 0) - (rank.get(b) ?? 0)));
}

/** Fisher and Yates. */
function shuffled(layer: readonly number[], random: () => number): number[] {
  const mixed = [...layer];
  for (let n = mixed.length - 1; n > 0; n--) {
    const other = Math.floor(random() * (n + 1));
    [mixed[n], mixed[other]] = [mixed[other], mixed[n]];
  }
  return mixed;
}

/** Numbers from 0 up to 1: a linear congruential generator, constants of Numerical Recipes (1992), ranqd1. */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
