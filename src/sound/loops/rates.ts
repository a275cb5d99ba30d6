import type { Place, RoomArrays } from "./places.js";

/** What a change of rate works with: see `rateChange.ts`. */
export interface RateArrays {
  /** Filters of `length` taps, a multiple of four, one for each phase; within a phase from the oldest value to the newest. */
  readonly taps: Float64Array;
  readonly length: number;
  /** `length` values of the past, and room for the newest behind them. */
  readonly values: Float64Array;
  readonly samples: Float64Array;
  /** A sample there for `steps / parts` frames here. */
  readonly steps: number;
  readonly parts: number;
}

/**
 * Goes through `frames` frames. `place` is how far the last frame is behind the next sample, in parts of a frame, negative
 * when it is not there yet. @returns how many samples there were
 */
export type RateRun = (frames: number, place: number) => number;

export interface RateLoops {
  /** Makes samples out of frames, which already stand in `values` behind the past. */
  rateDown(arrays: RateArrays): RateRun;
  /** Makes frames out of samples, which go into `values` as they are used. */
  rateUp(arrays: RateArrays, output: Float64Array): RateRun;
}

export interface AssembledRates {
  rateDown(
    taps: Place,
    length: number,
    values: Place,
    samples: Place,
    frames: number,
    place: number,
    steps: number,
    parts: number,
  ): number;
  rateUp(
    taps: Place,
    length: number,
    values: Place,
    samples: Place,
    output: Place,
    frames: number,
    place: number,
    steps: number,
    parts: number,
  ): number;
}

export const plainRates: RateLoops = {
  rateDown: (arrays) => (frames, place) => down(arrays, frames, place),
  rateUp: (arrays, output) => (frames, place) => up(arrays, output, frames, place),
};

function down(
  { taps, length, values, samples, steps, parts }: RateArrays,
  frames: number,
  start: number,
): number {
  let place = start;
  let made = 0;
  for (let n = 1; n <= frames; n++) {
    place += parts;
    while (place >= 0) {
      samples[made++] = weighted(taps, place * length, values, n, length);
      place -= steps;
    }
  }
  return made;
}

function up(
  { taps, length, values, samples, steps, parts }: RateArrays,
  output: Float64Array,
  frames: number,
  start: number,
): number {
  let place = start;
  let taken = 0;
  for (let n = 0; n < frames; n++) {
    place += parts;
    while (place >= 0) {
      values[length + taken] = samples[taken];
      taken++;
      place -= steps;
    }
    output[n] = weighted(taps, (place + steps) * length, values, taken, length);
  }
  return taken;
}

/** Sum of `length` taps from `first` on times values from `start` on. Four sums side by side need not wait for each other. */
function weighted(
  taps: Float64Array,
  first: number,
  values: Float64Array,
  start: number,
  length: number,
): number {
  let sum0 = 0;
  let sum1 = 0;
  let sum2 = 0;
  let sum3 = 0;
  for (let k = first, v = start, end = first + length; k < end; k += 4, v += 4) {
    sum0 += taps[k] * values[v];
    sum1 += taps[k + 1] * values[v + 1];
    sum2 += taps[k + 2] * values[v + 2];
    sum3 += taps[k + 3] * values[v + 3];
  }
  return sum0 + sum1 + (sum2 + sum3);
}

export const assembledRates = (loops: AssembledRates, { at }: RoomArrays): RateLoops => ({
  rateDown({ taps, length, values, samples, steps, parts }) {
    const [t, v, s] = [at(taps), at(values), at(samples)];
    return (frames, place) => loops.rateDown(t, length, v, s, frames, place, steps, parts);
  },
  rateUp({ taps, length, values, samples, steps, parts }, output) {
    const [t, v, s, o] = [at(taps), at(values), at(samples), at(output)];
    return (frames, place) => loops.rateUp(t, length, v, s, o, frames, place, steps, parts);
  },
});
