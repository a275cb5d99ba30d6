import type { Candidate, Judgement } from "./judgeBoard.js";

/** What recordings say of a board. */
export interface Verdict {
  /** `not-known`: nothing that one slip of the hand makes of the plan sounds like it. */
  readonly built: "as-drawn" | "faulty" | "not-known";
  /** Of a faulty board: the likeliest fault, and those that sound the same in these recordings. */
  readonly faults: readonly Candidate[];
  /** How sure it is, 0 to 1: that it is one of `faults`; that none is to be heard. */
  readonly sureness: number;
  /** What would sound like what was found: these recordings do not tell whether it is so. */
  readonly notTold: readonly Candidate[];
}

/** Likelihoods this near are one: so much two recordings of one board may differ. */
const alike = 2.5;
/** Beyond it even the best board is no likeness; see `Judgement.misfit`. */
const mostMisfit = 0.1;

export function verdictOf({ candidates, misfit, overdispersion }: Judgement): Verdict {
  const [first] = candidates;
  const near = candidates.filter(
    (each) => !isThePlan(each) && (each.fit - first.fit) / overdispersion > -alike,
  );
  const others = candidates.filter((each) => !isThePlan(each) && !near.includes(each)).reduce(sum, 0);
  if (misfit > mostMisfit) return { built: "not-known", faults: [], sureness: 0, notTold: [] };
  if (isDoubtful(first, misfit)) return { built: "not-known", faults: [], sureness: 0, notTold: [] };
  if (isThePlan(first)) {
    const notTold = near.filter(({ family }) => family?.changesNothing === false);
    return { built: "as-drawn", faults: [], sureness: 1 - others, notTold };
  }
  return { built: "faulty", faults: near, sureness: near.reduce(sum, 0), notTold: [] };
}

/**
 * A latency is exact: where it is at fault, all the rest fits. Where it does not, it is only what makes up best for a unit that
 * begins otherwise than its model.
 */
const isDoubtful = ({ family }: Candidate, misfit: number): boolean =>
  family?.kind === "latency" && misfit > 0.3 * mostMisfit;

/** The plan, or a fault of degree so small that it is none. */
const isThePlan = ({ family, amount }: Candidate): boolean =>
  family === null ||
  (family.wanted !== null && amount !== null && Math.abs(amount - family.wanted) <= family.tolerance);

const sum = (total: number, { posterior }: Candidate): number => total + posterior;
