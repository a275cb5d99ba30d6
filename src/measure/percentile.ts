/**
 * Percentile by nearest rank: element floor((n - 1) * percent / 100 + 0.5), from 0, of the values in rising order.
 *
 * @param sorted   values in rising order, at least one
 * @param percent  0 to 100
 * Source: EBU Tech 3342 v4 (2023), the program of its Annex.
 */
export function percentile(sorted: ArrayLike<number>, percent: number): number {
  return sorted[Math.floor(((sorted.length - 1) * percent) / 100 + 0.5)];
}
