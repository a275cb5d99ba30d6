import { coefficient } from "./correlation.js";
import type { CorrelationOverTime } from "./measures.js";
import { percentile } from "./percentile.js";
import { type StepEnergies, StepSums, windowSum } from "./stepSums.js";
import { commonFrames } from "./stereoSums.js";

/** Steps of the grid that `correlationOverTimeOf` reads. */
export const correlationStepsPerSecond = 10;
const stepsPerWindow = 4;
/** Windows 60 dB below the loudest hold no music, only its rest; common practice, no source. */
const quietestToLoudest = 1e-6;

/**
 * Correlation in windows of 400 ms every 100 ms; windows over 60 dB below the loudest, or with a silent channel, are
 * left out (null). Median and 5th percentile by nearest rank.
 *
 * @param left   samples, full scale 1
 * @param right  samples, as many as `left`
 * @returns null below 400 ms, and where no window has sound in both channels
 * @throws RangeError when the lengths differ
 * Source: window and hop are those of momentary loudness, EBU Tech 3341 v4 (2023).
 */
export function correlationOverTime(
  left: Float32Array,
  right: Float32Array,
  rateHz: number,
): CorrelationOverTime | null {
  const sums = new StepSums(correlationStepsPerSecond, rateHz);
  sums.push(left, right, commonFrames(left, right));
  return correlationOverTimeOf(sums);
}

/** The same from the energies of steps of 100 ms. */
export function correlationOverTimeOf({ left, right, cross }: StepEnergies): CorrelationOverTime | null {
  return correlationOverWindows(
    correlationWindows(left),
    correlationWindows(right),
    correlationWindows(cross),
  );
}

/** Sums of all windows of 400 ms, one every 100 ms, from sums of steps of 100 ms. */
export const correlationWindows = (steps: ArrayLike<number>): Float64Array =>
  new Float64Array(Math.max(0, steps.length - stepsPerWindow + 1)).map((_, k) =>
    windowSum(steps, k, stepsPerWindow),
  );

/** The same from the energies of windows. */
function correlationOverWindows(
  left: Float64Array,
  right: Float64Array,
  cross: Float64Array,
): CorrelationOverTime | null {
  const summary = correlationSummary(left, right, cross);
  if (summary === null) return null;
  const least = quietest(left, right);
  const values = Array.from(left, (energy, k) =>
    energy + right[k] < least ? null : coefficient(energy, right[k], cross[k]),
  );
  return { ...summary, values, hopSeconds: 1 / correlationStepsPerSecond };
}

/** What is told of the values, without the values themselves. */
export type CorrelationSummary = Pick<CorrelationOverTime, "median" | "percentile5" | "shareBelowZero">;

/**
 * The summary alone, from the energies of windows.
 * @param scratch  as long as these; written over
 */
export function correlationSummary(
  left: Float64Array,
  right: Float64Array,
  cross: Float64Array,
  scratch: Float64Array = new Float64Array(left.length),
): CorrelationSummary | null {
  const least = quietest(left, right);
  let count = 0;
  let belowZero = 0;
  for (let k = 0; k < left.length; k++) {
    if (left[k] + right[k] < least) continue;
    const value = coefficient(left[k], right[k], cross[k]);
    if (value === null) continue;
    scratch[count++] = value;
    if (value < 0) belowZero++;
  }
  if (count === 0) return null;
  const heard = scratch.subarray(0, count);
  return {
    median: percentile(heard, 50),
    percentile5: percentile(heard, 5),
    shareBelowZero: belowZero / count,
  };
}

/** Energy below which a window is left out. */
function quietest(left: Float64Array, right: Float64Array): number {
  let loudest = 0;
  for (let k = 0; k < left.length; k++) loudest = Math.max(loudest, left[k] + right[k]);
  return loudest * quietestToLoudest;
}
