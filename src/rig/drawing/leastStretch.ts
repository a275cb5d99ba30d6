/** `to` lies at least `least` after `from`; every unit beyond costs `weight`. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly least: number;
  readonly weight: number;
}

/**
 * Places for points 0 to `count` - 1 on a line, so that all stretches are long enough and the sum of weight times length
 * is least. The stretches form no loop. Whole numbers in, whole numbers out; the least place is 0.
 * Source: network simplex on a spanning tree of tight stretches, Gansner, Koutsofios, North and Vo, A technique for
 * drawing directed graphs, 1993, section 2.3. Every tree on the way is a solution, so that a bound on steps ends what
 * might go round.
 */
export function leastStretch(count: number, stretches: readonly Stretch[]): Float64Array {
  const root = count;
  const rooted = Array.from({ length: count }, (_, to) => ({ from: root, to, least: 0, weight: 0 }));
  const tree = new TightTree(count + 1, [...stretches, ...rooted]);
  for (let step = 0; step < 20 * (count + 10) && tree.improve(); step++);
  const places = tree.places.subarray(0, count);
  const first = places.reduce((least, place) => Math.min(least, place), Number.POSITIVE_INFINITY);
  return places.map((place) => place - first);
}

/** A tree of stretches that are as short as they may be. Its last point is its root and comes before all others. */
class TightTree {
  readonly places: Float64Array;
  readonly #stretches: readonly Stretch[];
  readonly #root: number;
  /** By point: the stretch that leads to its parent, or -1, and the parent. */
  readonly #link: Int32Array;
  readonly #parent: Int32Array;
  /** By point: what the sum gains when the point alone moves on by 1. */
  readonly #pull: Float64Array;
  /** Points from the root on, each branch in one piece; where each point stands in that, and how many its branch has. */
  readonly #order: Int32Array;
  readonly #rank: Int32Array;
  readonly #size: Int32Array;
  // Used over and over.
  readonly #sums: Float64Array;
  readonly #firstChild: Int32Array;
  readonly #nextChild: Int32Array;
  readonly #stack: Int32Array;

  constructor(count: number, stretches: readonly Stretch[]) {
    this.#stretches = stretches;
    this.#root = count - 1;
    this.places = new Float64Array(count);
    this.#link = new Int32Array(count).fill(-1);
    this.#parent = new Int32Array(count).fill(-1);
    this.#pull = new Float64Array(count);
    this.#order = new Int32Array(count);
    this.#rank = new Int32Array(count);
    this.#size = new Int32Array(count);
    this.#sums = new Float64Array(count);
    this.#firstChild = new Int32Array(count);
    this.#nextChild = new Int32Array(count);
    this.#stack = new Int32Array(count);
    for (const { from, to, weight } of stretches) {
      this.#pull[to] += weight;
      this.#pull[from] -= weight;
    }
    this.#start();
    this.#sort();
  }

  /**
   * Every point as early as it may be: its parent is the one that holds it there. But one that holds no other, and that
   * only the root holds, is as late as it may be.
   */
  #start(): void {
    const waits = new Int32Array(this.places.length);
    const after: number[][] = Array.from(this.places, () => []);
    this.#stretches.forEach(({ from, to }, n) => {
      waits[to]++;
      after[from].push(n);
    });
    const ready = [this.#root];
    for (const point of ready) {
      for (const n of after[point]) {
        const { to, least } = this.#stretches[n];
        const earliest = this.places[point] + least;
        if (this.#link[to] < 0 || earliest > this.places[to]) {
          this.places[to] = earliest;
          this.#link[to] = n;
          this.#parent[to] = point;
        }
        if (--waits[to] === 0) ready.push(to);
      }
    }
    const holding = new Set(this.#parent);
    for (const point of ready) {
      if (this.#parent[point] !== this.#root || holding.has(point) || after[point].length === 0) continue;
      this.#startLate(point, after[point]);
      holding.add(this.#parent[point]);
    }
  }

  #startLate(point: number, stretches: readonly number[]): void {
    this.places[point] = Number.POSITIVE_INFINITY;
    for (const n of stretches) {
      const { to, least } = this.#stretches[n];
      if (this.places[to] - least >= this.places[point]) continue;
      this.places[point] = this.places[to] - least;
      this.#link[point] = n;
      this.#parent[point] = to;
    }
  }

  /** Moves the branch that gains most until another stretch is tight, and hangs it there. False when none gains. */
  improve(): boolean {
    const top = this.#best();
    if (top < 0) return false;
    const isOnward = this.#stretches[this.#link[top]].to === top;
    const tight = this.#firstTight(top, isOnward);
    if (tight < 0) return false;
    const { from, to, least } = this.#stretches[tight];
    const room = this.places[to] - this.places[from] - least;
    const first = this.#rank[top];
    for (let n = first; n < first + this.#size[top]; n++)
      this.places[this.#order[n]] += isOnward ? room : -room;
    this.#hang(isOnward ? from : to, isOnward ? to : from, tight, top);
    this.#sort();
    return true;
  }

  /** Top of the branch whose move gains most; a branch moves only away from what holds it. */
  #best(): number {
    const sums = this.#sums;
    sums.set(this.#pull);
    let best = -1;
    let most = 0;
    for (let n = this.#order.length - 1; n > 0; n--) {
      const point = this.#order[n];
      const gain = this.#stretches[this.#link[point]].to === point ? -sums[point] : sums[point];
      if (gain > most || (gain === most && best >= 0 && point < best)) {
        most = gain;
        best = point;
      }
      sums[this.#parent[point]] += sums[point];
    }
    return best;
  }

  /** The stretch between branch and rest that first becomes tight; -1 where none does. */
  #firstTight(top: number, isOnward: boolean): number {
    const first = this.#rank[top];
    const last = first + this.#size[top];
    const rank = this.#rank;
    const places = this.places;
    let found = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let n = 0; n < this.#stretches.length; n++) {
      const stretch = this.#stretches[n];
      const mine = rank[isOnward ? stretch.from : stretch.to];
      const other = rank[isOnward ? stretch.to : stretch.from];
      if (mine < first || mine >= last || (other >= first && other < last)) continue;
      const room = places[stretch.to] - places[stretch.from] - stretch.least;
      if (room < least) {
        least = room;
        found = n;
      }
    }
    return found;
  }

  /** Hangs a branch at `outer` by its point `inner`: parents from there up to its old top turn round. */
  #hang(inner: number, outer: number, link: number, top: number): void {
    let point = inner;
    let parent = outer;
    let by = link;
    for (;;) {
      const oldParent = this.#parent[point];
      const oldLink = this.#link[point];
      this.#parent[point] = parent;
      this.#link[point] = by;
      if (point === top) return;
      parent = point;
      by = oldLink;
      point = oldParent;
    }
  }

  #sort(): void {
    const count = this.places.length;
    const child = this.#firstChild.fill(-1);
    const next = this.#nextChild;
    const stack = this.#stack;
    for (let point = count - 2; point >= 0; point--) {
      next[point] = child[this.#parent[point]];
      child[this.#parent[point]] = point;
    }
    stack[0] = this.#root;
    for (let n = 0, waiting = 1; waiting > 0; n++) {
      const point = stack[--waiting];
      this.#rank[point] = n;
      this.#order[n] = point;
      for (let under = child[point]; under >= 0; under = next[under]) stack[waiting++] = under;
    }
    this.#size.fill(1);
    for (let k = count - 1; k > 0; k--)
      this.#size[this.#parent[this.#order[k]]] += this.#size[this.#order[k]];
  }
}
