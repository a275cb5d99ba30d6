import type { Figure } from "./figures.js";

/**
 * The trade-off front: those that no other is better than. One is better than another when it is at least as good in
 * every aim and better in one. A figure that does not exist is worse than any that does.
 *
 * @param scores  one row a candidate, one entry an aim, more is better; null: none
 * @returns for each candidate null when it is on the front, else the first on the front that is better
 * Source: V. Pareto's optimum, as in H. T. Kung, F. Luccio and F. P. Preparata, "On finding the maxima of a set of
 * vectors", Journal of the ACM 22(4), 1975.
 */
export function frontOf(scores: readonly (readonly Figure[])[]): (number | null)[] {
  const rows = scores.map((row) => row.map((score) => score ?? Number.NEGATIVE_INFINITY));
  // None that comes later in this order is better than one that comes before.
  const order = rows.map((_, n) => n).sort((a, b) => compareRows(rows[b], rows[a]) || a - b);
  const front: number[] = [];
  const beatenBy = rows.map((): number | null => null);
  for (const n of order) {
    const better = front.find((other) => isBetter(rows[other], rows[n]));
    if (better === undefined) front.push(n);
    else beatenBy[n] = better;
  }
  return beatenBy;
}

function isBetter(a: readonly number[], b: readonly number[]): boolean {
  let somewhere = false;
  for (let k = 0; k < a.length; k++) {
    if (a[k] < b[k]) return false;
    if (a[k] > b[k]) somewhere = true;
  }
  return somewhere;
}

function compareRows(a: readonly number[], b: readonly number[]): number {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k] < b[k] ? -1 : 1;
  return 0;
}
