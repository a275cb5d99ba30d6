import { coefficient } from "./correlation.js";
import { groupMeasure } from "./groupMeasure.js";
import { foundOr } from "./measure.js";
import { percentile, scratch } from "./percentile.js";
import { StepSums } from "./stepSums.js";
import { commonFrames } from "./stereoSums.js";
import { shorterThan } from "./why.js";
import { correlationStepsPerSecond, type WindowEnergies, windowEnergies } from "./windowEnergies.js";

export const correlationOverTimeMeasure = groupMeasure({
  id: "correlationOverTime",
  from: "sound",
  needs: ["windows"],
  value: ({ windows }) => summaryOf(windows),
  find: (facts) =>
    foundOr(
      "correlationOverTime",
      overTimeOf(facts.windows),
      () => shorterThan(0.4, facts) ?? "no 400 ms have sound in both channels",
    ),
  means: "correlation in windows of 400 ms every 100 ms, those over 60 dB below the loudest left out",
  source: "window and hop of momentary loudness, EBU Tech 3341 v4 (2023)",
  fields: {
    correlationMedian: {
      of: ({ median }) => median,
      name: "correlation, median",
      unit: "",
      format: { fixed: 2 },
      better: null,
    },
    correlationPercentile5: {
      of: ({ percentile5 }) => percentile5,
      name: "correlation, 5th percentile",
      unit: "",
      format: { fixed: 2 },
      better: null,
    },
    correlationShareBelowZero: {
      of: ({ shareBelowZero }) => shareBelowZero,
      name: "correlation below zero",
      unit: "%",
      format: "percent",
      better: "less",
    },
  },
});

/** What is told of the windows' values, without the values themselves. */
export interface CorrelationSummary {
  readonly median: number;
  readonly percentile5: number;
  readonly shareBelowZero: number;
}

export interface CorrelationOverTime extends CorrelationSummary {
  /** One value a window of 400 ms, every 100 ms; null in windows over 60 dB below the loudest. For plots. */
  readonly values: readonly (number | null)[];
  readonly hopSeconds: number;
}

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
  return overTimeOf(windowEnergies(sums));
}

function overTimeOf(windows: WindowEnergies): CorrelationOverTime | null {
  const summary = summaryOf(windows);
  if (summary === null) return null;
  const { left, right, cross } = windows;
  const least = quietest(windows);
  const values = Array.from(left, (energy, k) =>
    energy + right[k] < least ? null : coefficient(energy, right[k], cross[k]),
  );
  return { ...summary, values, hopSeconds: 1 / correlationStepsPerSecond };
}

function summaryOf(windows: WindowEnergies): CorrelationSummary | null {
  const { left, right, cross } = windows;
  const least = quietest(windows);
  const heard = scratch(left.length);
  let count = 0;
  let belowZero = 0;
  for (let k = 0; k < left.length; k++) {
    if (left[k] + right[k] < least) continue;
    const value = coefficient(left[k], right[k], cross[k]);
    if (value === null) continue;
    heard[count++] = value;
    if (value < 0) belowZero++;
  }
  if (count === 0) return null;
  const values = heard.subarray(0, count);
  return {
    median: percentile(values, 50),
    percentile5: percentile(values, 5),
    shareBelowZero: belowZero / count,
  };
}

/** Energy below which a window is left out. */
function quietest({ left, right }: WindowEnergies): number {
  let loudest = 0;
  for (let k = 0; k < left.length; k++) loudest = Math.max(loudest, left[k] + right[k]);
  return loudest * quietestToLoudest;
}
