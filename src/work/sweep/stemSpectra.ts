import { AnalysisFft } from "../../sound/dsp/analysisFft.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { twoSpectra } from "../../sound/dsp/twoSpectra.js";
import { LowSpectra } from "../../sound/measure/lowSpectra.js";
import { oneSidedEnergies, sineWindow } from "../../sound/measure/powerComplementary.js";
import { spectrumBlockFrames } from "../../sound/measure/spectrum.js";
import type { Pair } from "./stepProducts.js";

/** One-sided cross spectrum of two signals, sum of X(f) Y*(f); entry k belongs to k * binHz. */
export interface CrossSpectrum {
  readonly crossReal: Float64Array;
  readonly crossImaginary: Float64Array;
  /** Finer bins of the lows of the real part. */
  readonly low: { readonly binHz: number; readonly crossReal: Float64Array };
}

/**
 * Cross spectra of pairs of signals, block by block as `SpectrumMeter` takes them. Each signal is transformed once,
 * two by one complex transform, however many pairs it is in.
 */
export class StemSpectra {
  readonly binHz: number;
  readonly #size: number;
  readonly #fft: AnalysisFft;
  readonly #window: Float64Array;
  readonly #pairs: readonly Pair[];
  /** A block a signal, half full of the silence before the sound at the start. */
  readonly #blocks: readonly Float32Array[];
  /** Interleaved spectra of the block at hand, a signal each. */
  readonly #spectra: readonly Float64Array[];
  readonly #real: readonly Float64Array[];
  readonly #imaginary: readonly Float64Array[];
  readonly #low: LowSpectra;
  #filled: number;

  constructor(rateHz: number, signals: number, pairs: readonly Pair[]) {
    const size = spectrumBlockFrames(rateHz);
    const bins = size / 2 + 1;
    const arrays = (count: number, length: number) =>
      Array.from({ length: count }, () => new Float64Array(length));
    this.binHz = rateHz / size;
    this.#size = size;
    this.#fft = new AnalysisFft(size);
    this.#window = sineWindow(size);
    this.#pairs = pairs;
    this.#blocks = Array.from({ length: signals }, () => new Float32Array(size));
    this.#spectra = arrays(signals, 2 * bins);
    this.#real = arrays(pairs.length, bins);
    this.#imaginary = arrays(pairs.length, bins);
    this.#low = new LowSpectra(rateHz, size, signals, pairs);
    this.#filled = size / 2;
  }

  push(signals: Block, frames: number): void {
    for (let from = 0; from < frames; ) {
      const to = Math.min(frames, from + this.#size - this.#filled);
      this.#blocks.forEach((block, s) => {
        block.set(signals[s].subarray(from, to), this.#filled);
      });
      this.#filled += to - from;
      if (this.#filled === this.#size) this.#closeBlock();
      from = to;
    }
  }

  /** One a pair. Ends the sound: nothing can be pushed afterwards. */
  result(): CrossSpectrum[] {
    for (const block of this.#blocks) block.fill(0, this.#filled);
    this.#closeBlock();
    for (const block of this.#blocks) block.fill(0, this.#size / 2);
    this.#closeBlock();
    const { binHz, products } = this.#low.result();
    return this.#pairs.map((_, p) => ({
      low: { binHz, crossReal: products[p] },
      crossReal: oneSidedEnergies(this.#real[p], 1 / this.#size),
      crossImaginary: oneSidedEnergies(this.#imaginary[p], 1 / this.#size),
    }));
  }

  #closeBlock(): void {
    for (let s = 0; s < this.#blocks.length; s += 2) this.#transform(s);
    this.#pairs.forEach(([i, j], p) => {
      addCross(this.#spectra[i], this.#spectra[j], this.#real[p], this.#imaginary[p]);
    });
    this.#spectra.forEach((spectrum, s) => {
      this.#low.add(s, spectrum);
    });
    this.#low.closeBlock();
    for (const block of this.#blocks) block.copyWithin(0, this.#size / 2);
    this.#filled = this.#size / 2;
  }

  /** Signals s and s + 1 as real and imaginary part of one transform. A silent one has no spectrum, not even rounding. */
  #transform(s: number): void {
    const window = this.#window;
    const { input, output } = this.#fft;
    const x = this.#blocks[s];
    const y = this.#blocks[s + 1] ?? silentBlock(this.#size);
    let xSize = 0;
    let ySize = 0;
    for (let n = 0, at = 0; n < window.length; n++, at += 2) {
      input[at] = x[n] * window[n];
      input[at + 1] = y[n] * window[n];
      xSize += Math.abs(x[n]);
      ySize += Math.abs(y[n]);
    }
    if (xSize + ySize > 0) this.#fft.forwardPairs();
    else output.fill(0);
    const gains = [xSize > 0 ? 0.5 : 0, ySize > 0 ? 0.5 : 0] as const;
    twoSpectra(output, this.#size, this.#size / 2 + 1, gains, [
      this.#spectra[s],
      this.#spectra[s + 1] ?? this.#spectra[s].slice(),
    ]);
  }
}

let silence = new Float32Array(0);
function silentBlock(size: number): Float32Array {
  if (silence.length !== size) silence = new Float32Array(size);
  return silence;
}

function addCross(x: Float64Array, y: Float64Array, real: Float64Array, imaginary: Float64Array): void {
  for (let k = 0, at = 0; k < real.length; k++, at += 2) {
    const xr = x[at];
    const xi = x[at + 1];
    const yr = y[at];
    const yi = y[at + 1];
    real[k] += xr * yr + xi * yi;
    imaginary[k] += xi * yr - xr * yi;
  }
}
