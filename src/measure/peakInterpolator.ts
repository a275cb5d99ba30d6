/** Taps of each phase: 31 frames before the pair of frames that the sought point lies between, and 31 behind. */
const tapsPerPhase = 64;
const middleCount = 8;
/** Frames from the first tap to the frame just before the sought point; of all taps and of the middle ones. */
export const before = tapsPerPhase / 2 - 1;
export const middleBefore = middleCount / 2 - 1;
/** Kaiser window for about 70 dB of image rejection: flat up to 0.466 of the rate (20.5 kHz at 44.1 kHz). */
const kaiserBeta = 6.76;
/** Rate that true peak is read at, at the least; BS.1770-5, Annex 2. */
const leastRateHz = 192_000;
/** Takes below this rate get four points a frame even where fewer would reach 192 kHz. */
const fourfoldBelowHz = 96_000;

/** What interpolates between frames, and how far that can lift the sound above its samples. */
export interface PeakInterpolator {
  /** Points a frame, the frame itself included. */
  readonly factor: number;
  /** Of the points p/factor behind frame n, p = 1..factor-1. */
  readonly phases: readonly Phase[];
  /** With P the largest |x| under the taps and m the larger of the two nearest, |value| <= nearGain*m + farGain*P. */
  readonly nearGain: number;
  readonly farGain: number;
  /** With D the largest |x[k-1] - 2 x[k] + x[k+1]| under the taps, |value| <= lineGain*m + bendGain*D. */
  readonly lineGain: number;
  readonly bendGain: number;
}

export interface Phase {
  /** Value = sum over j of taps[j] * x[n - before + j]. */
  readonly taps: Float64Array;
  /** The eight taps in the middle, the first of which is on frame n - middleBefore. */
  readonly middleTaps: Float64Array;
  /** Sum of the sizes of the others. */
  readonly outerGain: number;
}

/**
 * Windowed-sinc interpolator of a rate, four points a frame at 44.1 (five) and 48 kHz, two at 96 kHz, one from 192 kHz on.
 * Each phase is scaled to pass a constant unchanged.
 *
 * Source: ITU-R BS.1770-5 (2023), Annex 2, whose 12 taps a phase are an example that may be bettered; window: Kaiser
 * and Schafer, "On the use of the I0-sinh window for spectrum analysis", IEEE Trans. ASSP 28(1), 1980.
 * The two bounds: triangle inequality over the taps; and the same after writing the taps as a straight line between
 * the two nearest frames plus second differences.
 */
export function peakInterpolator(rateHz: number): PeakInterpolator {
  const factor = Math.max(rateHz < fourfoldBelowHz ? 4 : 1, Math.ceil(leastRateHz / rateHz));
  const fractions = Array.from({ length: factor - 1 }, (_, p) => (p + 1) / factor);
  const allTaps = fractions.map(phaseTaps);
  const bends = allTaps.map((taps, p) => bendOf(taps, fractions[p]));
  return {
    factor,
    phases: allTaps.map(phaseOf),
    nearGain: most(allTaps.map(nearSize)),
    farGain: most(allTaps.map((taps) => sizeOf(taps) - nearSize(taps))),
    lineGain: 1 + 2 * most(bends.map(({ slopeError }) => Math.abs(slopeError))) + 1e-12,
    bendGain: most(bends.map(({ bend }) => bend)),
  };
}

function phaseOf(taps: Float64Array): Phase {
  const start = before - middleBefore;
  const middleTaps = taps.slice(start, start + middleCount);
  return { taps, middleTaps, outerGain: sizeOf(taps) - sizeOf(middleTaps) };
}

/** Size of the taps on the two nearest frames. */
const nearSize = (taps: Float64Array): number => Math.abs(taps[before]) + Math.abs(taps[before + 1]);

function phaseTaps(fraction: number): Float64Array {
  const taps = Float64Array.from({ length: tapsPerPhase }, (_, j) => {
    const t = fraction - (j - before);
    const u = t / (tapsPerPhase / 2);
    return (Math.sin(Math.PI * t) / (Math.PI * t)) * besselI0(kaiserBeta * Math.sqrt(Math.max(0, 1 - u * u)));
  });
  const sum = taps.reduce((total, tap) => total + tap, 0);
  return taps.map((tap) => tap / sum);
}

/**
 * Taps less the straight line between the two nearest frames hold no constant. Summed once they become weights of
 * first differences, which add up to the slope error; with that put on the middle difference and summed again they
 * become weights of second differences. Their size is the bend.
 */
function bendOf(taps: Float64Array, fraction: number): { bend: number; slopeError: number } {
  const rest = Float64Array.from(taps);
  rest[before] -= 1 - fraction;
  rest[before + 1] -= fraction;
  // sum of rest[j] x[j] = sum of first[j] (x[j] - x[j+1]), first = running sum of rest
  const first = runningSum(rest);
  const slopeError = -first.reduce((total, weight) => total + weight, 0);
  first[before] += slopeError;
  return { bend: sizeOf(runningSum(first)), slopeError };
}

function runningSum(values: Float64Array): Float64Array {
  let sum = 0;
  return values.map((value) => {
    sum += value;
    return sum;
  });
}

/** Modified Bessel function of the first kind, order 0, by its power series. */
function besselI0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

const sizeOf = (values: Float64Array): number => values.reduce((total, value) => total + Math.abs(value), 0);
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), 0);
