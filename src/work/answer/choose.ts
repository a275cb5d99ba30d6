import type { Decider } from "../../rig/model/rig.js";
import type { Candidate, Merits } from "./merits.js";

/** Differences that listeners do not tell (common practice, no source): of share of width kept, and of level. */
export const tie = { width: 0.05, monoLossDb: 0.5 } as const;

/** Figures in the order of `deciderChoices`, each the less the better; what is not known is worst. */
export const costsOf = ({ width, cost, boxes, monoLossDb }: Merits): Readonly<Record<Decider, number>> => ({
  width: -(width ?? 0),
  cost: cost.open.length > 0 ? Number.POSITIVE_INFINITY : cost.known,
  boxes,
  monoLoss: monoLossDb ?? 0,
});

/**
 * True when `a` is at least as good as `b` in width kept, mono loss, cost and boxes, and better in one by more than a
 * `tie`. A price that is open beats none, and is beaten only by one that is no higher than what is known of it.
 * Source: V. Pareto's optimum, as in `front.ts` of sweeps.
 */
export function beats(a: Merits, b: Merits): boolean {
  const gains = [
    { gain: (a.width ?? 0) - (b.width ?? 0), over: tie.width },
    { gain: (b.monoLossDb ?? 0) - (a.monoLossDb ?? 0), over: tie.monoLossDb },
    { gain: costGain(a, b), over: 0 },
    { gain: b.boxes - a.boxes, over: 0 },
  ];
  return gains.every(({ gain }) => gain >= 0) && gains.some(({ gain, over }) => gain > over);
}

/** Above 0: `a` is cheaper whatever is open; below 0: it is not known to be. Equal open prices are equal. */
function costGain({ cost: a }: Merits, { cost: b }: Merits): number {
  if (a.open.length > 0)
    return a.known === b.known && String(a.open) === String(b.open) ? 0 : Number.NEGATIVE_INFINITY;
  return b.known - a.known + (b.open.length > 0 && a.known <= b.known ? Number.MIN_VALUE : 0);
}

/** Those that no other beats. */
export const undominated = (candidates: readonly Candidate[]): readonly Candidate[] =>
  candidates.filter(({ merits }) => !candidates.some((other) => beats(other.merits, merits)));

export interface Chosen {
  readonly best: Candidate;
  /** In the order in which they would follow. */
  readonly rest: readonly Candidate[];
}

/**
 * The one to build: of those that no other beats, the best by what decides first, then second and so on. Whatever is
 * within `tie` of the best counts as equal to it and stays in; of equals, the one with fewer boxes, then cheaper, then
 * listed first. Null when there is none.
 */
export function choose(candidates: readonly Candidate[], first: readonly Decider[]): Chosen | null {
  const best = bestOf(undominated(candidates), first);
  if (!best) return null;
  const rest: Candidate[] = [];
  let left = candidates.filter((candidate) => candidate !== best);
  for (let next = bestOf(undominated(left), first); next; next = bestOf(undominated(left), first)) {
    const taken = next;
    rest.push(taken);
    left = left.filter((candidate) => candidate !== taken);
  }
  return { best, rest };
}

function bestOf(candidates: readonly Candidate[], first: readonly Decider[]): Candidate | undefined {
  let left = candidates;
  for (const decider of first) {
    const least = Math.min(...left.map(({ merits }) => costsOf(merits)[decider]));
    const within = decider === "width" ? tie.width : decider === "monoLoss" ? tie.monoLossDb : 0;
    left = left.filter(({ merits }) => costsOf(merits)[decider] <= least + within);
  }
  return [...left].sort(
    ({ merits: a }, { merits: b }) => a.boxes - b.boxes || compareCosts(costsOf(a).cost, costsOf(b).cost),
  )[0];
}

const compareCosts = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1);

/** True where nobody hears which is which by width or mono loss; of a width that is not known nothing is said. */
export const soundAlike = (a: Merits, b: Merits): boolean =>
  a.width !== null &&
  b.width !== null &&
  Math.abs(a.width - b.width) <= tie.width &&
  Math.abs((a.monoLossDb ?? 0) - (b.monoLossDb ?? 0)) <= tie.monoLossDb;
