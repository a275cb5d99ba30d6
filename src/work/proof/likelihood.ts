import type { CellPlan, Covariances } from "./cells.js";

/** What one recording says of one board: a measured covariance a cell, and what may stand there. */
export interface Evidence {
  readonly plan: CellPlan;
  /** Noise of the recording in each cell, of left and right. */
  readonly noise: readonly [Float64Array, Float64Array];
  readonly channels: 1 | 2;
  /** The gain hangs on the level of the tone: it is this recording's own. */
  readonly isDriven: boolean;
  /** The board at different moments: each with what was measured, cut as that moment wants it. */
  readonly moments: readonly Moments[];
}
interface Moments {
  readonly predicted: Covariances;
  readonly measured: Covariances;
}

/** So far under a cell's own energy a model does not reach: what arrives there is as good as nothing. */
const modelFloor = 10 ** (-26 / 10);

/** So far under what comes first in its band a bench does not reach: hum, crosstalk, what filters let ring. */
const benchFloor = 10 ** (-50 / 10);

/**
 * Log-likelihood of the measured covariances, each cell weighing what its plan says; 0 is a perfect fit:
 *
 *     l = -w (ln det C - ln det S + trace(C^-1 S) - sides),  C = g^2 (P + floor) + noise
 *
 * S measured, its own floor added, P predicted, g the gain of the whole bench. Of several moments each cell takes the mean of the likelihoods:
 * nobody knows where the LFOs stood while the sweep passed. What rings later than what comes dry may be off its model by some
 * decibels in each cell: `unitsOwn`.
 *
 * Source: the complex Wishart distribution, N. R. Goodman 1963, Ann. Math. Statist. 34(1), from memory; its degrees of
 * freedom bounded, which makes it a quasi-likelihood.
 */
function logLikelihood({ plan, noise, channels, moments }: Evidence, gainDb: number): number {
  const power = 10 ** (gainDb / 10);
  const count = moments.length;
  const each = new Float64Array(count);
  let total = 0;
  for (let n = 0; n < plan.cells.length; n++) {
    const { weight } = plan.cells[n];
    let best = Number.NEGATIVE_INFINITY;
    for (let m = 0; m < count; m++) {
      each[m] = -weight * misfit(moments[m], n, power, noise, channels, plan.cells[n]);
      if (each[m] > best) best = each[m];
    }
    let sum = 0;
    for (let m = 0; m < count; m++) sum += Math.exp(each[m] - best);
    total += best + Math.log(sum / count);
  }
  return total;
}

/** ln det C - ln det S + trace(C^-1 S) - sides, of one cell: 0 where the two are alike. */
function misfit(
  { predicted: p, measured: s }: Moments,
  n: number,
  power: number,
  [noiseLeft, noiseRight]: Evidence["noise"],
  channels: 1 | 2,
  { direct, weight, window }: CellPlan["cells"][number],
): number {
  const at = 4 * n;
  const floor = (power * floorOf(p, at, direct)) / channels + tiny;
  const measuredFloor = floorOf(s, at, direct) / channels + tiny;
  const a = power * p[at] + floor + noiseLeft[n];
  const sa = s[at] + measuredFloor;
  const settled = (det: number, trace: number) =>
    Math.log(det) - channels + (window === 0 ? trace : atUnitsLevel(trace, channels, weight));
  if (channels === 1) return settled(a / sa, sa / a);
  const d = power * p[at + 1] + floor + noiseRight[n];
  const sd = s[at + 1] + measuredFloor;
  const [bRe, bIm] = [power * p[at + 2], power * p[at + 3]];
  const det = a * d - bRe * bRe - bIm * bIm;
  const measuredDet = sa * sd - s[at + 2] ** 2 - s[at + 3] ** 2;
  const trace = (d * sa + a * sd - 2 * (bRe * s[at + 2] + bIm * s[at + 3])) / det;
  return settled(det / measuredDet, trace);
}

/** What rings later is a unit's own, and no unit is its model: its level in a cell may be off by so much, nepers of power. */
const unitsOwn = (2 * Math.LN10) / 10;

/** The trace where the cell stands at the level u that suits it best: sides u + trace e^-u + u^2 / (2 unitsOwn^2 w). */
function atUnitsLevel(trace: number, sides: number, weight: number): number {
  const stiffness = 1 / (unitsOwn * unitsOwn * weight);
  let u = Math.max(-3, Math.min(3, Math.log(trace / sides)));
  for (let step = 0; step < 4; step++) {
    const slope = sides - trace * Math.exp(-u) + stiffness * u;
    u -= slope / (trace * Math.exp(-u) + stiffness);
  }
  return sides * u + trace * Math.exp(-u) + 0.5 * stiffness * u * u;
}

const tiny = 1e-30;

function floorOf(cells: Covariances, at: number, [first, last]: readonly [number, number]): number {
  let direct = 0;
  for (let k = first; k <= last; k++) direct += cells[4 * k] + cells[4 * k + 1];
  return modelFloor * (cells[at] + cells[at + 1]) + (benchFloor * direct) / (last - first + 1);
}

function bestGain(evidence: readonly Evidence[], startDb: number): { gainDb: number; value: number } {
  const value = (gainDb: number) => evidence.reduce((sum, each) => sum + logLikelihood(each, gainDb), 0);
  let [low, high] = [startDb - 12, startDb + 12];
  const golden = (Math.sqrt(5) - 1) / 2;
  let [c, d] = [high - golden * (high - low), low + golden * (high - low)];
  let [vc, vd] = [value(c), value(d)];
  while (high - low > 0.02) {
    if (vc > vd) {
      [high, d, vd] = [d, c, vc];
      c = high - golden * (high - low);
      vc = value(c);
    } else {
      [low, c, vc] = [c, d, vd];
      d = low + golden * (high - low);
      vd = value(d);
    }
  }
  const gainDb = (low + high) / 2;
  return { gainDb, value: value(gainDb) };
}

/** What recordings miss in a cell, on average: 0 is a perfect fit. */
export function misfitOf(evidence: readonly Evidence[], gainDb: number): number {
  const weights = evidence.flatMap(({ plan }) => plan.cells.map(({ weight }) => weight));
  const total = evidence.reduce((sum, each) => sum + logLikelihood(each, gainDb), 0);
  return -total / weights.reduce((sum, weight) => sum + weight, 0);
}

/** The gain at which recordings fit best, and how well. */
export function scoreOf(evidence: readonly Evidence[]): { gainDb: number; value: number } {
  const plain = evidence.filter(({ isDriven }) => !isDriven);
  const driven = evidence
    .filter(({ isDriven }) => isDriven)
    .map((each) => bestGain([each], startGainDb([each])));
  const { gainDb, value } = plain.length > 0 ? bestGain(plain, startGainDb(plain)) : { gainDb: 0, value: 0 };
  return { gainDb, value: driven.reduce((sum, each) => sum + each.value, value) };
}

/** The gain that makes the energies of all cells alike. */
function startGainDb(evidence: readonly Evidence[]): number {
  let [measured, wanted] = [0, 0];
  for (const { moments, plan } of evidence) {
    const { predicted, measured: cells } = moments[moments.length - 1];
    for (let n = 0; n < plan.cells.length; n++) {
      measured += cells[4 * n] + cells[4 * n + 1];
      wanted += predicted[4 * n] + predicted[4 * n + 1];
    }
  }
  return wanted > 0 && measured > 0 ? 10 * Math.log10(measured / wanted) : 0;
}
