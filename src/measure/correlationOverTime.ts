import { correlationOf } from "./correlation.js";
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
  const windows = Array.from({ length: Math.max(0, left.length - stepsPerWindow + 1) }, (_, k) => ({
    left: windowSum(left, k, stepsPerWindow),
    right: windowSum(right, k, stepsPerWindow),
    cross: windowSum(cross, k, stepsPerWindow),
  }));
  const loudest = windows.reduce((most, window) => Math.max(most, window.left + window.right), 0);
  const values = windows.map((window) =>
    window.left + window.right < loudest * quietestToLoudest ? null : correlationOf(window),
  );
  const sorted = values.filter((value) => value !== null).sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  return {
    median: percentile(sorted, 50),
    percentile5: percentile(sorted, 5),
    shareBelowZero: sorted.filter((value) => value < 0).length / sorted.length,
    values,
    hopSeconds: 1 / correlationStepsPerSecond,
  };
}
