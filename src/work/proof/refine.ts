import type { Bench } from "./bench.js";
import type { FaultFamily } from "./faults.js";
import { scoreOf } from "./likelihood.js";

/** A value of degree as the recordings have it. */
export interface Fitted {
  readonly amount: number;
  /** Either side of it; beyond, it fits clearly worse. */
  readonly within: number;
}

/** How far a fit falls at the end of the interval. */
const clearlyWorse = 3;

/**
 * The value of a fault of degree that fits best, near one that fits well, and how far off it may be.
 * @param reach  how far from `near` it may lie
 * @param most   an interval that is wider says nothing: null is given
 */
export function refined(
  family: FaultFamily,
  near: number,
  {
    reach,
    least,
    most,
    overdispersion,
  }: { reach: number; least: number; most: number; overdispersion: number },
  bench: Bench,
): Fitted | null {
  const fits = new Map<number, number>();
  const fitAt = (amount: number): number => {
    const known = fits.get(amount);
    if (known !== undefined) return known;
    const board = { id: `${family.id} ${amount}`, board: family.board(amount) };
    const { value } = scoreOf(bench.judging.map((recording) => bench.evidence(board, recording)));
    fits.set(amount, value);
    return value;
  };
  const from = Math.max(family.least, near - reach);
  const amount = highest(fitAt, from, Math.min(family.greatest, near + reach), least);
  const drop = clearlyWorse * overdispersion;
  for (let within = least; within <= most; within *= 1.6) {
    const ends = [amount - within, amount + within].filter(
      (end) => end >= family.least && end <= family.greatest,
    );
    if (ends.every((end) => fitAt(amount) - fitAt(end) >= drop)) return { amount, within };
  }
  return null;
}

/** Where a function of one top is highest, to `least`. */
function highest(value: (x: number) => number, from: number, to: number, least: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  while (high - low > least) {
    const [c, d] = [high - golden * (high - low), low + golden * (high - low)];
    if (value(c) > value(d)) high = d;
    else low = c;
  }
  return (low + high) / 2;
}
