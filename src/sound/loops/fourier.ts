import FFT from "fft.js";
import type { Place, RoomArrays } from "./places.js";

/** Transforms of one size: fill `input`, call `run`, read `output`; both hold interleaved complex numbers. */
export interface Transform {
  readonly input: Float64Array<ArrayBuffer>;
  readonly output: Float64Array<ArrayBuffer>;
  run(): void;
}

export interface FourierLoops {
  /**
   * X[k] = sum x[n] e^(-2 pi i k n / N), unscaled. Radix 4, in the order of `fft.js`, so that both twins round alike.
   * @param size  N, a power of two from 2 on
   */
  transform(size: number): Transform;
  /**
   * Bins 0 to N/2 of a real signal from the transform `z` of N/2 numbers, its even frames plus i times its odd ones.
   * Source: symmetry; Press et al., Numerical Recipes, 12.3, from memory.
   * @param cos, sin  of 2 pi k / N, k = 0 .. N/2
   */
  unravel(
    z: Float64Array,
    cos: Float64Array,
    sin: Float64Array,
    re: Float64Array,
    im: Float64Array,
  ): () => void;
}

export interface AssembledFourier {
  fourier(output: Place, input: Place, size: number, order: Place, twiddles: Place): void;
  unravel(z: Place, half: number, cos: Place, sin: Place, re: Place, im: Place): void;
}

/** The one place that makes transforms of `fft.js`. */
export const plainFourier: FourierLoops = {
  transform(size) {
    const fft = new FFT(size);
    const [input, output] = [new Float64Array(2 * size), new Float64Array(2 * size)];
    return { input, output, run: () => fft.transform(output, input) };
  },
  unravel: (z, cos, sin, re, im) => () => {
    const half = cos.length - 1;
    re[0] = z[0] + z[1];
    im[0] = 0;
    re[half] = z[0] - z[1];
    im[half] = 0;
    for (let k = 1, at = 2, mirrored = 2 * half - 2; k < half; k++, at += 2, mirrored -= 2) {
      const evenRe = z[at] + z[mirrored];
      const evenIm = z[at + 1] - z[mirrored + 1];
      const oddRe = z[at + 1] + z[mirrored + 1];
      const oddIm = z[mirrored] - z[at];
      re[k] = 0.5 * (evenRe + cos[k] * oddRe + sin[k] * oddIm);
      im[k] = 0.5 * (evenIm + cos[k] * oddIm - sin[k] * oddRe);
    }
  },
};

export const assembledFourier = (
  loops: AssembledFourier,
  { at, doubles, integers }: RoomArrays,
): FourierLoops => ({
  transform(size) {
    const [input, output] = [doubles(2 * size), doubles(2 * size)];
    const order = integers(size);
    order.set(orderOf(size));
    const twiddles = doubles(2 * size);
    twiddles.set(twiddlesOf(size));
    const [to, from, o, w] = [at(output), at(input), at(order), at(twiddles)];
    return { input, output, run: () => loops.fourier(to, from, size, o, w) };
  },
  unravel(z, cos, sin, re, im) {
    const [from, c, s, real, imaginary] = [at(z), at(cos), at(sin), at(re), at(im)];
    return () => loops.unravel(from, cos.length - 1, c, s, real, imaginary);
  },
});

/** Where the numbers of each first step begin, in doubles: indices with their digits of base 4 turned round. */
function orderOf(size: number): readonly number[] {
  const power = Math.log2(size);
  const width = power % 2 === 0 ? power - 1 : power;
  return Array.from({ length: power % 2 === 0 ? size / 4 : size / 2 }, (_, n) => {
    let place = 0;
    for (let shift = 0; shift < width; shift += 2) {
      const digit = (n >>> shift) & 3;
      if (digit !== 0) place |= digit << (width - shift - 2);
    }
    return place;
  });
}

/** w, w^2 and w^3 of every butterfly, stage by stage, to the bits of the table of `fft.js`. */
function twiddlesOf(size: number): readonly number[] {
  const table: number[] = [];
  for (let quarter = Math.log2(size) % 2 === 0 ? 4 : 2; 4 * quarter <= size; quarter *= 4) {
    const stride = size / (2 * quarter);
    for (let k = 0; k < quarter; k++) {
      for (const power of [1, 2, 3]) {
        const angle = (Math.PI * (power * k * stride)) / size;
        table.push(Math.cos(angle), -Math.sin(angle));
      }
    }
  }
  return table;
}
