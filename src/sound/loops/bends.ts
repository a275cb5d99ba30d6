import type { Place, RoomArrays } from "./places.js";

/** A half-band filter: see `halfBand.ts`. Branches A0 and A1 in turn, section by section, as many of both. */
export interface HalfBandArrays {
  readonly coefficients: Float64Array;
  readonly states: Float64Array;
  readonly input: Float64Array;
  readonly output: Float64Array;
}

export interface BendLoops {
  /** Two frames out for each of `frames` in: A0's and A1's. */
  double(arrays: HalfBandArrays): (frames: number) => void;
  /** `frames` out, for two in each: half the sum of A0 of the later and A1 of the earlier. */
  halve(arrays: HalfBandArrays): (frames: number) => void;
  /** In place, for the first `count`, an even number: tanh(drive x + asymmetry) - tanh(asymmetry), within 3e-16. */
  bend(values: Float64Array, drive: number, asymmetry: number): (count: number) => void;
}

export interface AssembledBends {
  double(
    coefficients: Place,
    states: Place,
    pairs: number,
    input: Place,
    output: Place,
    frames: number,
  ): void;
  halve(coefficients: Place, states: Place, pairs: number, input: Place, output: Place, frames: number): void;
  bend(values: Place, count: number, drive: number, asymmetry: number, rest: number): void;
}

/** tanh by exp: 1 - 2/(e^2x + 1), within 2e-16 of it; the engine's own tanh is several times slower. */
const tanh = (x: number): number => 1 - 2 / (Math.exp(2 * x) + 1);

export const plainBends: BendLoops = {
  double:
    ({ coefficients, states, input, output }) =>
    (frames) => {
      for (let n = 0; n < frames; n++) {
        output[2 * n] = branch(coefficients, states, 0, input[n]);
        output[2 * n + 1] = branch(coefficients, states, 1, input[n]);
      }
    },
  halve:
    ({ coefficients, states, input, output }) =>
    (frames) => {
      for (let n = 0; n < frames; n++) {
        const even = branch(coefficients, states, 0, input[2 * n + 1]);
        output[n] = 0.5 * (even + branch(coefficients, states, 1, input[2 * n]));
      }
    },
  bend(values, drive, asymmetry) {
    const rest = tanh(asymmetry);
    return (count) => {
      for (let n = 0; n < count; n++) values[n] = tanh(drive * values[n] + asymmetry) - rest;
    };
  },
};

/** One frame through every second section from `first` on. */
function branch(coefficients: Float64Array, states: Float64Array, first: 0 | 1, x: number): number {
  let sample = x;
  for (let k = first; k < coefficients.length; k += 2) {
    const turned = coefficients[k] * sample + states[k];
    states[k] = sample - coefficients[k] * turned;
    sample = turned;
  }
  return sample;
}

export const assembledBends = (loops: AssembledBends, { at }: RoomArrays): BendLoops => ({
  double: ({ coefficients, states, input, output }) => {
    const [c, s, i, o] = [at(coefficients), at(states), at(input), at(output)];
    return (frames) => loops.double(c, s, coefficients.length / 2, i, o, frames);
  },
  halve: ({ coefficients, states, input, output }) => {
    const [c, s, i, o] = [at(coefficients), at(states), at(input), at(output)];
    return (frames) => loops.halve(c, s, coefficients.length / 2, i, o, frames);
  },
  bend(values, drive, asymmetry) {
    const v = at(values);
    const rest = tanh(asymmetry);
    return (count) => loops.bend(v, count, drive, asymmetry, rest);
  },
});
