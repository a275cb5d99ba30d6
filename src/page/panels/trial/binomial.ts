/**
 * Probability of `least` or more successes in `trials` independent ones of chance `chance` each:
 * sum over j from `least` to `trials` of C(trials, j) chance^j (1 - chance)^(trials - j).
 *
 * @param least   whole, 0 to `trials`
 * @param trials  whole, 1 to 1000
 * @param chance  0 to 1; guessing between two: 0.5
 * @returns 0..1; 1 for `least` 0
 * Source: the binomial distribution, closed form.
 */
export function atLeast(least: number, trials: number, chance = 0.5): number {
  if (least <= 0) return 1;
  if (chance <= 0) return 0;
  if (chance >= 1) return 1;
  let sum = 0;
  for (let j = trials; j >= least; j--) sum += term(j, trials, chance);
  return Math.min(1, sum);
}

/**
 * Bounds of a share of which `successes` of `trials` were seen, exact: below `low` (above `high`), so many successes
 * or more (or fewer) would come about in less than (1 - level) / 2 of all cases. Wider than approximations, and never too narrow.
 *
 * @param level  of confidence, 0.95 unless told otherwise
 * @returns 0..1 each
 * Source: C. J. Clopper and E. S. Pearson, "The use of confidence or fiducial limits illustrated in the case of the
 *   binomial", Biometrika 26 (1934), from memory.
 */
export function exactInterval(
  successes: number,
  trials: number,
  level = 0.95,
): { low: number; high: number } {
  const outside = (1 - level) / 2;
  const low = successes === 0 ? 0 : shareWhere((chance) => atLeast(successes, trials, chance) >= outside);
  const high =
    successes === trials ? 1 : shareWhere((chance) => 1 - atLeast(successes + 1, trials, chance) <= outside);
  return { low, high };
}

/** C(n, j) p^j (1 - p)^(n - j), through logarithms: the factors alone leave the range of doubles. */
function term(j: number, n: number, p: number): number {
  let log = j * Math.log(p) + (n - j) * Math.log1p(-p);
  for (let k = 1; k <= Math.min(j, n - j); k++) log += Math.log((n - k + 1) / k);
  return Math.exp(log);
}

/** The least share for which a condition that stays true once it is true holds, to the last bits. */
function shareWhere(holds: (chance: number) => boolean): number {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}
