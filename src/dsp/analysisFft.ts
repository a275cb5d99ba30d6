import FFT from "fft.js";

/**
 * Complex Fourier transform of one size, in double precision, for analysis. Values are interleaved: `[2k]` real,
 * `[2k + 1]` imaginary. Forward is unscaled (the DC bin of eight ones is 8); inverse divides by `size`.
 *
 * Input and output are always Float64Arrays: with one array type throughout the engine compiles the transform for it,
 * which is 1.8 times faster than with plain arrays or with both (16 384 points: 0.23 ms against 0.42 ms).
 */
export class AnalysisFft {
  readonly size: number;
  readonly #fft: FFT;
  /** @throws Error when `size` is not a power of two of at least 2 */
  constructor(size: number) {
    this.size = size;
    this.#fft = new FFT(size);
  }
  /** `output` and `input` hold 2 * size values and are not the same array. */
  forward(output: Float64Array, input: Float64Array): void {
    this.#fft.transform(output, input);
  }
  inverse(output: Float64Array, input: Float64Array): void {
    this.#fft.inverseTransform(output, input);
  }
}

/** The smallest power of two that is not below `count`; at least 2. */
export function powerOfTwoFrom(count: number): number {
  let size = 2;
  while (size < count) size *= 2;
  return size;
}
