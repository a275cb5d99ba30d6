import { RealAnalysisFft } from "../dsp/realAnalysisFft.js";
import { oneSidedEnergies, sineWindow } from "./powerComplementary.js";

/** Signals whose products are wanted, by their places in a list. */
export type SignalPair = readonly [number, number];

/** Products of the spectra of signals, block by block under a sine window, blocks overlapping by half. */
export class LongBlocks {
  readonly #size: number;
  readonly #pairs: readonly SignalPair[];
  readonly #window: Float64Array;
  readonly #fft: RealAnalysisFft;
  readonly #blocks: readonly Float64Array[];
  readonly #re: readonly Float64Array[];
  readonly #im: readonly Float64Array[];
  readonly #sums: readonly Float64Array[];
  readonly #windowed: Float64Array;
  #filled: number;

  constructor(size: number, signals: number, pairs: readonly SignalPair[]) {
    const arrays = (count: number, length: number) =>
      Array.from({ length: count }, () => new Float64Array(length));
    this.#size = size;
    this.#pairs = pairs;
    this.#window = sineWindow(size);
    this.#fft = new RealAnalysisFft(size);
    this.#blocks = arrays(signals, size);
    this.#re = arrays(signals, size / 2 + 1);
    this.#im = arrays(signals, size / 2 + 1);
    this.#sums = arrays(pairs.length, size / 2 + 1);
    this.#windowed = new Float64Array(size);
    // The silence before the sound.
    this.#filled = size / 2;
  }

  /** The next frames of every signal: half a block, or a part that goes into it a whole number of times. */
  push(signals: readonly Float64Array[]): void {
    this.#blocks.forEach((block, s) => {
      block.set(signals[s], this.#filled);
    });
    this.#filled += signals[0].length;
    if (this.#filled === this.#size) this.#close();
  }

  /** The same, so that a sound can be ended and go on. */
  copy(): LongBlocks {
    const copy = new LongBlocks(this.#size, this.#blocks.length, this.#pairs);
    copy.#blocks.forEach((block, s) => {
      block.set(this.#blocks[s]);
    });
    copy.#sums.forEach((sum, p) => {
      sum.set(this.#sums[p]);
    });
    copy.#filled = this.#filled;
    return copy;
  }

  /** One a pair: the real part of the one-sided cross spectrum, as energies. Ends the sound. */
  result(): readonly Float64Array[] {
    for (const block of this.#blocks) block.fill(0, this.#filled);
    this.#close();
    for (const block of this.#blocks) block.fill(0, this.#size / 2);
    this.#close();
    return this.#sums.map((sum) => oneSidedEnergies(sum, 1 / this.#size));
  }

  #close(): void {
    this.#blocks.forEach((block, s) => {
      for (let n = 0; n < block.length; n++) this.#windowed[n] = block[n] * this.#window[n];
      this.#fft.forward(this.#windowed, this.#re[s], this.#im[s]);
      block.copyWithin(0, this.#size / 2);
    });
    this.#pairs.forEach(([i, j], p) => {
      const [xr, xi, yr, yi] = [this.#re[i], this.#im[i], this.#re[j], this.#im[j]];
      const sum = this.#sums[p];
      for (let k = 0; k < sum.length; k++) sum[k] += xr[k] * yr[k] + xi[k] * yi[k];
    });
    this.#filled = this.#size / 2;
  }
}
