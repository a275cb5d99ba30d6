import type { Place, RoomArrays } from "./places.js";

export interface MixLoops {
  /**
   * output = sum over inputs of gain times input, in doubles, in their order, rounded once. It may write three frames more.
   * @param inputs  one behind the other, as long as the output each
   */
  mix(inputs: Float32Array, gains: Float64Array, output: Float32Array): (frames: number) => void;
}

export interface AssembledMixes {
  mix(inputs: Place, stride: number, gains: Place, count: number, output: Place, frames: number): void;
}

export const plainMixes: MixLoops = {
  mix(inputs, gains, output) {
    const sums = new Float64Array(output.length);
    return (frames) => {
      sums.fill(0, 0, frames);
      for (let k = 0, from = 0; k < gains.length; k++, from += output.length) {
        const gain = gains[k];
        for (let n = 0; n < frames; n++) sums[n] += gain * inputs[from + n];
      }
      for (let n = 0; n < frames; n++) output[n] = sums[n];
    };
  },
};

export const assembledMixes = (loops: AssembledMixes, { at }: RoomArrays): MixLoops => ({
  mix(inputs, gains, output) {
    const [i, g, o] = [at(inputs), at(gains), at(output)];
    return (frames) => loops.mix(i, 4 * output.length, g, gains.length, o, frames);
  },
});
