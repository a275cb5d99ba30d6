import { AnalysisFft } from "./analysisFft.js";

/**
 * Fourier transform of a real signal of N frames in doubles, N a power of two, at least 4: bins 0 to N/2, as
 * `AnalysisFft` defines them, in half its time. Forward is unscaled, inverse undoes it; inputs are left as they are.
 *
 * Source: even frames as the real part and odd frames as the imaginary part of N/2 complex ones, taken apart by
 * symmetry; Press et al., Numerical Recipes, 12.3, from memory.
 */
export class RealAnalysisFft {
  readonly size: number;
  readonly #fft: AnalysisFft;
  readonly #pairs: Float64Array;
  readonly #out: Float64Array;
  /** cos and sin of 2 pi k / N, k = 0 .. N/2. */
  readonly #cos: Float64Array;
  readonly #sin: Float64Array;

  /** @throws Error when `size` is not a power of two, or less than 4 */
  constructor(size: number) {
    const half = size / 2;
    this.size = size;
    this.#fft = new AnalysisFft(half);
    this.#pairs = new Float64Array(size);
    this.#out = new Float64Array(size);
    const angle = (2 * Math.PI) / size;
    this.#cos = Float64Array.from({ length: half + 1 }, (_, k) => Math.cos(k * angle));
    this.#sin = Float64Array.from({ length: half + 1 }, (_, k) => Math.sin(k * angle));
  }

  /** Writes bins 0 to N/2 of a signal of N frames. */
  forward(signal: Float64Array, re: Float64Array, im: Float64Array): void {
    const half = this.size / 2;
    const z = this.#out;
    const cos = this.#cos;
    const sin = this.#sin;
    this.#fft.forwardPairs(z, signal);
    re[0] = z[0] + z[1];
    im[0] = 0;
    re[half] = z[0] - z[1];
    im[half] = 0;
    for (let k = 1, at = 2, mirrored = this.size - 2; k < half; k++, at += 2, mirrored -= 2) {
      const evenRe = z[at] + z[mirrored];
      const evenIm = z[at + 1] - z[mirrored + 1];
      const oddRe = z[at + 1] + z[mirrored + 1];
      const oddIm = z[mirrored] - z[at];
      re[k] = 0.5 * (evenRe + cos[k] * oddRe + sin[k] * oddIm);
      im[k] = 0.5 * (evenIm + cos[k] * oddIm - sin[k] * oddRe);
    }
  }

  /** Writes the N frames of a signal; the imaginary parts of bins 0 and N/2 do not count. */
  inverse(re: Float64Array, im: Float64Array, signal: Float64Array): void {
    const half = this.size / 2;
    const pairs = this.#pairs;
    for (let k = 0; k < half; k++) {
      const m = half - k;
      const imK = k === 0 ? 0 : im[k];
      const imM = k === 0 ? 0 : im[m];
      const diffRe = (re[k] - re[m]) / 2;
      const diffIm = (imK + imM) / 2;
      const c = this.#cos[k];
      const s = this.#sin[k];
      // The conjugate goes in and comes out, which makes the forward transform the inverse one.
      pairs[2 * k] = (re[k] + re[m]) / 2 - (c * diffIm + s * diffRe);
      pairs[2 * k + 1] = -((imK - imM) / 2 + (c * diffRe - s * diffIm));
    }
    const out = this.#out;
    this.#fft.forwardPairs(out, pairs);
    for (let n = 0; n < half; n++) {
      signal[2 * n] = out[2 * n] / half;
      signal[2 * n + 1] = -out[2 * n + 1] / half;
    }
  }
}

const plans = new Map<number, WeakRef<RealAnalysisFft>>();

/**
 * The transform of a size, made once for as long as anybody holds it: its tables take as long as a few transforms. A call
 * leaves nothing in it that the next one reads.
 *
 * @throws Error when `size` is not a power of two, or less than 4
 */
export function realFftOf(size: number): RealAnalysisFft {
  const known = plans.get(size)?.deref();
  if (known) return known;
  const made = new RealAnalysisFft(size);
  plans.set(size, new WeakRef(made));
  return made;
}
