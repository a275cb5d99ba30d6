/**
 * The trade-off front: candidates that no other is better than. One is better than another when it is at least as good
 * in every aim and better in one.
 *
 * @param candidates  numbers, each once
 * @param scores      a row a number, `aims` entries each, more is better; -Infinity: none, worse than any
 * @param beatenBy    gets for each candidate `onFront`, or the one on the front, first in every aim, that is better
 * Source: V. Pareto's optimum, as in H. T. Kung, F. Luccio and F. P. Preparata, "On finding the maxima of a set of
 * vectors", Journal of the ACM 22(4), 1975.
 */
export function markFront(
  candidates: readonly number[],
  scores: Float64Array,
  aims: number,
  beatenBy: Int32Array,
): void {
  // None that comes later in this order is better than one that comes before.
  const order = Int32Array.from(candidates).sort((a, b) => compareScores(scores, aims, b, a) || a - b);
  const front: number[] = [];
  for (const n of order) {
    const better = front.find((other) => isBetter(scores, aims, other, n));
    beatenBy[n] = better ?? onFront;
    if (better === undefined) front.push(n);
  }
}

export const onFront = -1;

/** By the first aim in which they differ: below 0 when `a` has less. */
export function compareScores(scores: Float64Array, aims: number, a: number, b: number): number {
  for (let k = 0; k < aims; k++) {
    const x = scores[a * aims + k];
    const y = scores[b * aims + k];
    if (x !== y) return x < y ? -1 : 1;
  }
  return 0;
}

function isBetter(scores: Float64Array, aims: number, a: number, b: number): boolean {
  let somewhere = false;
  for (let k = 0; k < aims; k++) {
    const x = scores[a * aims + k];
    const y = scores[b * aims + k];
    if (x < y) return false;
    if (x > y) somewhere = true;
  }
  return somewhere;
}
