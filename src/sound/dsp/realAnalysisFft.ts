import { openRoom, type Room, roomBytes, sharedBySize } from "../loops/room.js";
import { AnalysisFft, analysisFftBytes } from "./analysisFft.js";

/**
 * Fourier transform of a real signal of N frames in doubles, N a power of two, at least 4: bins 0 to N/2, as
 * `AnalysisFft` defines them, in half its time. Forward is unscaled, inverse undoes it; inputs are left as they are.
 *
 * Source: even frames as the real part and odd frames as the imaginary part of N/2 complex ones, taken apart by
 * symmetry; Press et al., Numerical Recipes, 12.3, from memory.
 */
export class RealAnalysisFft {
  readonly size: number;
  /** For loops that must be fast: fill `signal`, call `run`, read bins 0 to N/2 in `re` and `im`. */
  readonly signal: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly #unravel: () => void;
  readonly #fft: AnalysisFft;
  /** cos and sin of 2 pi k / N, k = 0 .. N/2. */
  readonly #cos: Float64Array;
  readonly #sin: Float64Array;

  /**
   * @param room  where its memory is, if it is to work beside other loops
   * @throws RangeError when `size` is not a power of two, or less than 4
   */
  constructor(size: number, room: Room = openRoom(realFftBytes(size))) {
    const half = size / 2;
    this.size = size;
    this.#fft = new AnalysisFft(half, room);
    this.signal = this.#fft.input;
    this.re = room.doubles(half + 1);
    this.im = room.doubles(half + 1);
    this.#cos = room.doubles(half + 1);
    this.#sin = room.doubles(half + 1);
    const angle = (2 * Math.PI) / size;
    for (let k = 0; k <= half; k++) {
      this.#cos[k] = Math.cos(k * angle);
      this.#sin[k] = Math.sin(k * angle);
    }
    this.#unravel = room.loops.unravel(this.#fft.output, this.#cos, this.#sin, this.re, this.im);
  }

  run(): void {
    this.#fft.forwardPairs();
    this.#unravel();
  }

  /** Writes bins 0 to N/2 of a signal of N frames. */
  forward(signal: Float64Array, re: Float64Array, im: Float64Array): void {
    this.signal.set(signal);
    this.run();
    re.set(this.re);
    im.set(this.im);
  }

  /** Writes the N frames of a signal; the imaginary parts of bins 0 and N/2 do not count. */
  inverse(re: Float64Array, im: Float64Array, signal: Float64Array): void {
    const half = this.size / 2;
    const { input: pairs, output: out } = this.#fft;
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
    this.#fft.forwardPairs();
    for (let n = 0; n < half; n++) {
      signal[2 * n] = out[2 * n] / half;
      signal[2 * n + 1] = -out[2 * n + 1] / half;
    }
  }
}

/** What a transform of a real signal takes in a room. */
export const realFftBytes = (size: number): number => {
  const bins = 8 * (size / 2 + 1);
  return analysisFftBytes(size / 2) + roomBytes(bins, bins, bins, bins);
};

/**
 * The transform of a size, one for all. Its `signal`, `re` and `im` hold only until the next who asks for it.
 *
 * @throws RangeError when `size` is not a power of two, or less than 4
 */
export const realFftOf = sharedBySize((size) => new RealAnalysisFft(size));
