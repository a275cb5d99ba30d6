declare module "fft.js" {
  export default class FFT {
    constructor(size: number);
    /** Interleaved re, im; forward is unscaled. `out` and `data` are two arrays of 2 * size. */
    transform(out: Float64Array, data: Float64Array): void;
    /** Inverse, divided by size. */
    inverseTransform(out: Float64Array, data: Float64Array): void;
  }
}
