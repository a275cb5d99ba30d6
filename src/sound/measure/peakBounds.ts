import {
  before,
  cellFrames,
  cellsEitherWay,
  middleBefore,
  middleCount,
  type PeakGains,
} from "../loops/peaks.js";
import type { Phase } from "./peakInterpolator.js";

/**
 * How far interpolation can lift the sound above its samples, so that points which cannot be a new peak need not be
 * computed. m is the larger of the two samples next to a point, P the largest under the taps. A cell's bend D is the
 * largest |x[k-1] - 2 x[k] + x[k+1]|, k from one before its first frame to one before its last.
 */
export interface PeakBounds extends PeakGains {
  /** |value| <= nearGain * m + farGain * P: the triangle inequality over the taps. */
  readonly nearGain: number;
  readonly farGain: number;
  /**
   * |value| <= lineGain * m + the lesser of bendGain * the largest D of the five cells around, and the sum of
   * bendGains[i] * D of each: the same after writing the taps as the straight line between the two samples and second
   * differences.
   */
  readonly lineGain: number;
  readonly bendGain: number;
  readonly bendGains: Float64Array;
  /** By phase, the eight taps in the middle, the first on frame n - middleBefore. */
  readonly middles: readonly Middle[];
}

/** |value| <= |sum of taps[j] * x[n - middleBefore + j]| + outerGain * P. */
export interface Middle {
  readonly taps: Float64Array;
  readonly outerGain: number;
}

export function peakBounds(phases: readonly Phase[]): PeakBounds {
  const bends = phases.map(bendOf);
  return {
    nearGain: most(phases.map(({ taps }) => nearSize(taps))),
    farGain: most(phases.map(({ taps }) => sizeOf(taps) - nearSize(taps))),
    lineGain: 1 + 2 * most(bends.map(({ slopeError }) => Math.abs(slopeError))) + 1e-12,
    bendGain: most(bends.map(({ weights }) => sizeOf(weights))),
    bendGains: Float64Array.from({ length: 2 * cellsEitherWay + 1 }, (_, i) =>
      most(bends.map(({ weights }) => cellGain(weights, i - cellsEitherWay))),
    ),
    middles: phases.map(middleOf),
  };
}

/** Size of the taps on the two nearest frames. */
const nearSize = (taps: Float64Array): number => Math.abs(taps[before]) + Math.abs(taps[before + 1]);

function middleOf({ taps }: Phase): Middle {
  const start = before - middleBefore;
  const middle = taps.slice(start, start + middleCount);
  return { taps: middle, outerGain: sizeOf(taps) - sizeOf(middle) };
}

/**
 * Taps less the straight line between the two nearest frames hold no constant. Summed once they become weights of
 * first differences, which add up to the slope error; with that taken off the middle difference and summed again they
 * become weights of second differences, number j around frame n - before + 1 + j.
 */
function bendOf({ taps, fraction }: Phase): { weights: Float64Array; slopeError: number } {
  const rest = Float64Array.from(taps);
  rest[before] -= 1 - fraction;
  rest[before + 1] -= fraction;
  const first = runningSum(rest);
  const slopeError = first.reduce((total, weight) => total + weight, 0);
  first[before] -= slopeError;
  return { weights: runningSum(first), slopeError };
}

/** Most weight that any frame of a cell puts on the bends of the cell `cells` further on. */
function cellGain(weights: Float64Array, cells: number): number {
  const shares = Array.from({ length: cellFrames }, (_, n) =>
    sizeOf(weights.filter((_weight, j) => Math.floor((n - before + 1 + j + 1) / cellFrames) === cells)),
  );
  return most(shares);
}

function runningSum(values: Float64Array): Float64Array {
  let sum = 0;
  return values.map((value) => {
    sum += value;
    return sum;
  });
}

const sizeOf = (values: Float64Array): number => values.reduce((total, value) => total + Math.abs(value), 0);
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), 0);
