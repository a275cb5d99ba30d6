import type { Wiring } from "../../rig/wiring/wiring.js";
import type { Bench, NamedBoard } from "./bench.js";
import { asDrawn, type FaultFamily, faultsOf } from "./faults.js";
import { type Evidence, misfitOf, scoreOf } from "./likelihood.js";

/** How well the plan or one of its neighbours explains the recordings. */
export interface Candidate {
  /** Null for the plan as drawn. */
  readonly family: FaultFamily | null;
  /** Of a fault of degree, the value that fits best. */
  readonly amount: number | null;
  /** Log-likelihood at its best; 0 is a perfect fit. */
  readonly fit: number;
  readonly gainDb: number;
  /** Share of all that is likely, over all degrees of it. */
  readonly posterior: number;
}

export interface Judgement {
  /** The likeliest first; what fits far worse is left out. */
  readonly candidates: readonly Candidate[];
  /** What the best misses in a cell that stands still, on average: 0 is a perfect fit, 0.1 about 2 dB. */
  readonly misfit: number;
  /** By how much likelihoods were drawn together, since even the best does not fit. */
  readonly overdispersion: number;
}

/** So far behind the best in what stands still, a board is not looked at any further. */
const hopelessBy = 60;
/** Before anything is heard the plan is as likely as all its faults together. */
const priorOfPlan = 0.5;
/** What a board as modelled misses in a cell, on average, by noise and the moments of LFOs. */
const chanceMisfit = 0.2;

const hopelessUnder = (best: number, cells: number): number =>
  best - hopelessBy * Math.max(1, -best / (chanceMisfit * cells));

interface Tried extends NamedBoard {
  readonly family: FaultFamily | null;
  readonly amount: number | null;
  readonly exact: readonly Evidence[];
  readonly fit: number;
}

/** Every single fault of a wiring, and the wiring itself, held against recordings. */
export function judgeBoard(
  wiring: Wiring,
  bench: Bench,
  onProgress: (done: number) => void = () => {},
): Judgement {
  const families = faultsOf(wiring);
  const boards = [
    { id: "", family: null, amount: null, board: asDrawn(wiring) },
    ...families.flatMap((family) =>
      family.amounts.map((amount) => ({
        id: `${family.id} ${amount}`,
        family,
        amount,
        board: family.board(amount ?? 0),
      })),
    ),
  ];
  const exact = bench.judging;
  const cells = exact.reduce((sum, { plan }) => sum + plan.cells.length, 0);
  const rest = bench.recordings.filter((each) => !exact.includes(each) && each.asked.driven.length === 0);
  let best = Number.NEGATIVE_INFINITY;
  // A fit is a sum of what is never over 0: so far behind by some recordings, a board is no better by all.
  const fitted = (each: NamedBoard): Pick<Tried, "exact" | "fit"> => {
    const evidence: Evidence[] = [];
    let fit = 0;
    for (const recording of exact) {
      evidence.push(bench.evidence(each, recording));
      fit = scoreOf(evidence).value;
      if (fit < hopelessUnder(best, cells)) return { exact: evidence, fit };
    }
    best = Math.max(best, fit);
    return { exact: evidence, fit };
  };
  const tried = boards.map((each, n): Tried => {
    onProgress((0.7 * n) / boards.length);
    return { ...each, ...fitted(each) };
  });
  tried.push(...closer(tried, fitted));
  const hopeful = tried.filter(({ fit }) => fit > hopelessUnder(best, cells));
  const scored = hopeful.map(({ id, board, family, amount, exact: evidence, fit: exactFit }, n) => {
    onProgress(0.7 + (0.3 * n) / hopeful.length);
    const all = [...evidence, ...rest.map((recording) => bench.evidence({ id, board }, recording))];
    const { value, gainDb } = scoreOf(all);
    const still = evidence.length > 0 ? evidence : all;
    return {
      family,
      amount,
      fit: value,
      gainDb,
      misfit: misfitOf(still, gainDb),
      stillFit: evidence.length > 0 ? exactFit : value,
      cells: cellsOf(still),
    };
  });
  return ranked(scored, families.length);
}

/** Faults of degree that are looked at between the steps as well: those that fit best. */
const lookedAtCloser = 3;
const closerSteps = 9;

/** Faults of degree at the values, between those that were tried, where they fit best. */
function closer(
  tried: readonly Tried[],
  score: (board: NamedBoard) => Pick<Tried, "exact" | "fit">,
): readonly Tried[] {
  const best = new Map<string, Tried>();
  for (const each of tried) {
    if (each.family === null || each.amount === null) continue;
    const known = best.get(each.family.id);
    if (!known || each.fit > known.fit) best.set(each.family.id, each);
  }
  const few = [...best.values()].sort((a, b) => b.fit - a.fit).slice(0, lookedAtCloser);
  return few.flatMap(({ family, amount }) => {
    if (family === null || amount === null) return [];
    const values = [family.wanted, ...family.amounts].filter((value) => value !== null);
    const [below, above] = [values.filter((x) => x < amount), values.filter((x) => x > amount)];
    let low = below.length > 0 ? Math.max(...below) : Math.max(family.least, amount - family.finest);
    let high = above.length > 0 ? Math.min(...above) : amount + family.finest;
    let found: Tried | null = null;
    for (let n = 0; n < closerSteps; n++) {
      const [c, d] = [low + 0.382 * (high - low), low + 0.618 * (high - low)].map((value): Tried => {
        const board = { id: `${family.id} ${value}`, board: family.board(value) };
        return { ...board, family, amount: value, ...score(board) };
      });
      if (c.fit > d.fit) high = d.amount ?? high;
      else low = c.amount ?? low;
      const better = c.fit > d.fit ? c : d;
      if (!found || better.fit > found.fit) found = better;
    }
    return found ? [found] : [];
  });
}

interface Scored extends Omit<Candidate, "posterior"> {
  readonly misfit: number;
  /** Of what stands still alone. */
  readonly stillFit: number;
  readonly cells: number;
}

function ranked(scored: readonly Scored[], families: number): Judgement {
  const best = scored.reduce((a, b) => (b.fit > a.fit ? b : a));
  const overdispersion = Math.max(1, -best.stillFit / (chanceMisfit * best.cells));
  const likely = scored.map(({ family, fit }) => {
    const prior = family ? (1 - priorOfPlan) / families / family.amounts.length : priorOfPlan;
    return prior * Math.exp((fit - best.fit) / overdispersion);
  });
  const total = likely.reduce((sum, each) => sum + each, 0);
  const ids = [...new Set(scored.map(({ family }) => family?.id ?? null))];
  const candidates = ids.map((id): Candidate => {
    const own = scored.flatMap((each, n) =>
      (each.family?.id ?? null) === id ? [{ ...each, likely: likely[n] }] : [],
    );
    const { family, amount, fit, gainDb } = own.reduce((a, b) => (b.fit > a.fit ? b : a));
    const posterior = own.reduce((sum, each) => sum + each.likely, 0) / total;
    return { family, amount, fit, gainDb, posterior };
  });
  return {
    candidates: candidates.sort((a, b) => b.posterior - a.posterior),
    misfit: best.misfit,
    overdispersion,
  };
}

const cellsOf = (evidence: readonly Evidence[]): number =>
  evidence.reduce((sum, { plan }) => sum + plan.cells.length, 0);
