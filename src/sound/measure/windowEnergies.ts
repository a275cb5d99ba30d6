import { type StepEnergies, windowSum } from "./stepSums.js";

/** Steps of the grid that windows are made of. */
export const correlationStepsPerSecond = 10;
const stepsPerWindow = 4;

/** Sums of all windows of 400 ms, one every 100 ms. */
export interface WindowEnergies {
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** sum(L*R). */
  readonly cross: Float64Array;
}

/** @param steps sums of steps of 100 ms */
export const windowEnergies = ({ left, right, cross }: StepEnergies): WindowEnergies => ({
  left: correlationWindows(left),
  right: correlationWindows(right),
  cross: correlationWindows(cross),
});

export const correlationWindows = (steps: ArrayLike<number>): Float64Array =>
  new Float64Array(Math.max(0, steps.length - stepsPerWindow + 1)).map((_, k) =>
    windowSum(steps, k, stepsPerWindow),
  );
