import { spacing } from "./spacing.js";

/** Two points that would be on one level but for what they are tied to: `drop` is how far `to` lies below, and is dear. */
export interface Tie {
  readonly from: number;
  readonly fromY: number;
  readonly to: number;
  readonly toY: number;
  readonly weight: number;
  /** Of all that run side by side. */
  readonly channel: number;
}
/** A point with another below it, whose top is lower by at least `least`. */
export interface Apart {
  readonly from: number;
  readonly to: number;
  readonly least: number;
}

/** A tie that is not level, as px of drop; and two that change levels with each other, for which one takes two tracks. */
const bendCost = 30;
const swapCost = 60;

/**
 * Moves points so that fewer ties are bent: a point, with all that hangs at it by level ties, is moved level with the other
 * end of one, wherever there is room and the drops grow by less than the bends are worth.
 */
export function straighten(tops: Float64Array, ties: readonly Tie[], apart: readonly Apart[]): void {
  const tiesOf = byPoint(tops.length, ties);
  const apartOf = byPoint(tops.length, apart);
  const drop = ({ from, fromY, to, toY }: Tie): number => tops[to] + toY - tops[from] - fromY;

  /** The point and what hangs at it, or nothing if that holds `fixed`. */
  const groupOf = (point: number, fixed: number): ReadonlySet<number> => {
    const group = new Set([point]);
    for (const one of group) {
      if (one === fixed) return new Set();
      for (const tie of tiesOf[one]) if (drop(tie) === 0) group.add(tie.from === one ? tie.to : tie.from);
    }
    return group;
  };
  const gain = (group: ReadonlySet<number>, move: number): number => {
    let sum = 0;
    for (const point of group)
      for (const tie of tiesOf[point]) {
        if (group.has(tie.from) && group.has(tie.to)) continue;
        const old = drop(tie);
        sum += costOf(tie, old) - costOf(tie, group.has(tie.to) ? old + move : old - move);
      }
    return sum;
  };
  const hasRoom = (group: ReadonlySet<number>, move: number): boolean =>
    [...group].every((point) =>
      apartOf[point].every(({ from, to, least }) => {
        const room = tops[to] - tops[from] - least;
        return (group.has(from) ? move : 0) <= room + (group.has(to) ? move : 0);
      }),
    );
  const level = (tie: Tie, end: number): boolean => {
    const move = end === tie.to ? -drop(tie) : drop(tie);
    const group = move === 0 ? new Set<number>() : groupOf(end, end === tie.to ? tie.from : tie.to);
    const gained = group.size === 0 ? 0 : gain(group, move);
    if (gained <= 0 || !hasRoom(group, move)) return false;
    const before = swaps(ties, tops);
    for (const point of group) tops[point] += move;
    if (gained > swapCost * (swaps(ties, tops) - before)) return true;
    for (const point of group) tops[point] -= move;
    return false;
  };

  for (let gains = true; gains; ) {
    gains = false;
    for (const tie of ties) for (const end of [tie.to, tie.from]) gains = level(tie, end) || gains;
  }
}

/** Pairs of which each leaves for the level that the other comes from. */
function swaps(ties: readonly Tie[], tops: Float64Array): number {
  const bent = ties
    .map(({ from, fromY, to, toY, channel }) => ({ start: tops[from] + fromY, end: tops[to] + toY, channel }))
    .filter(({ start, end }) => start !== end);
  const isNear = (a: number, b: number) => Math.abs(a - b) < spacing.levels;
  let count = 0;
  bent.forEach((a, n) => {
    for (let k = 0; k < n; k++) {
      const b = bent[k];
      if (a.channel === b.channel && isNear(a.start, b.end) && isNear(a.end, b.start)) count++;
    }
  });
  return count;
}

const costOf = ({ weight }: Tie, drop: number): number =>
  drop === 0 ? 0 : bendCost + weight * Math.abs(drop);

function byPoint<T extends { readonly from: number; readonly to: number }>(
  count: number,
  pairs: readonly T[],
): readonly (readonly T[])[] {
  const lists: T[][] = Array.from({ length: count }, () => []);
  for (const pair of pairs) {
    lists[pair.from].push(pair);
    lists[pair.to].push(pair);
  }
  return lists;
}
