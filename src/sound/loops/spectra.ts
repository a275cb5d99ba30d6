import type { Place, RoomArrays } from "./places.js";

export interface SpectrumLoops {
  /** output = (left + i right) times window, interleaved. All of one even length, output of twice that. */
  windowPair(left: Float32Array, right: Float32Array, window: Float64Array, output: Float64Array): () => void;
  /** output = channel times window, all of one even length. */
  windowOne(channel: Float32Array, window: Float64Array, output: Float64Array): () => void;
  /**
   * Adds four times the energies of L and R and of the cross spectrum L R*, bins 0 to N/2, of Z = L + iR to sums:
   * 2 L(k) = Z(k) + Z*(-k), 2i R(k) = Z(k) - Z*(-k).
   * @param z  interleaved, of N numbers
   */
  addPairEnergies(
    z: Float64Array,
    left: Float64Array,
    right: Float64Array,
    crossReal: Float64Array,
    crossImaginary: Float64Array,
  ): () => void;
}

export interface AssembledSpectra {
  windowPair(left: Place, right: Place, window: Place, output: Place, frames: number): void;
  windowOne(channel: Place, window: Place, output: Place, frames: number): void;
  addPairEnergies(
    z: Place,
    size: number,
    left: Place,
    right: Place,
    crossReal: Place,
    crossImaginary: Place,
  ): void;
}

export const plainSpectra: SpectrumLoops = {
  windowPair: (left, right, window, output) => () => {
    for (let n = 0, at = 0; n < window.length; n++, at += 2) {
      output[at] = left[n] * window[n];
      output[at + 1] = right[n] * window[n];
    }
  },
  windowOne: (channel, window, output) => () => {
    for (let n = 0; n < window.length; n++) output[n] = channel[n] * window[n];
  },
  addPairEnergies: (z, left, right, crossReal, crossImaginary) => () => {
    for (let k = 0, at = 0, mirror = 0; k < left.length; k++, at += 2, mirror = z.length - at) {
      const lr = z[at] + z[mirror];
      const li = z[at + 1] - z[mirror + 1];
      const rr = z[at + 1] + z[mirror + 1];
      const ri = z[mirror] - z[at];
      left[k] += lr * lr + li * li;
      right[k] += rr * rr + ri * ri;
      crossReal[k] += lr * rr + li * ri;
      crossImaginary[k] += li * rr - lr * ri;
    }
  },
};

export const assembledSpectra = (loops: AssembledSpectra, { at }: RoomArrays): SpectrumLoops => ({
  windowPair(left, right, window, output) {
    const [l, r, w, o] = [at(left), at(right), at(window), at(output)];
    return () => loops.windowPair(l, r, w, o, window.length);
  },
  windowOne(channel, window, output) {
    const [c, w, o] = [at(channel), at(window), at(output)];
    return () => loops.windowOne(c, w, o, window.length);
  },
  addPairEnergies(z, left, right, crossReal, crossImaginary) {
    const [from, l, r] = [at(z), at(left), at(right)];
    const [real, imaginary] = [at(crossReal), at(crossImaginary)];
    return () => loops.addPairEnergies(from, z.length / 2, l, r, real, imaginary);
  },
});
