import { AnalysisFft, fftSizeFor } from "../dsp/analysisFft.js";
import { type Band, octaveBands, thirdOctaveBands } from "./isoBands.js";
import { LongBlocks, type SignalPair } from "./longBlocks.js";

/** Bands that end here or below are read from long blocks: 178 Hz, where the octave at 125 Hz ends. */
const lowEndHz = octaveBands[2].highHz;
/** From there to here the signal made for them fades away. */
const goneHz = 1.9 * lowEndHz;
/** A fiftieth of the narrowest band, the third octave at 25 Hz: at 2 Hz from a note its skirts are 65 dB down. */
const widestBinHz = (thirdOctaveBands[0].highHz - thirdOctaveBands[0].lowHz) / 50;

export const isLowBand = ({ highHz }: Band): boolean => highHz <= 1.0001 * lowEndHz;

/** Energies in fine bins, entry k belongs to k * binHz; right up to where the low bands end. */
export interface LowBins {
  readonly binHz: number;
  /** Real part of the cross spectrum, a pair each. */
  readonly products: readonly Float64Array[];
}

/**
 * Products of the lows of signals from long blocks (11 s): one of 0.3 s cannot part a band of 6 Hz from a note beside it.
 *
 * The lows come at a lower rate, out of spectra that are taken anyway: the inverse transform of the low bins of a block,
 * under the block's sine window once more, adds up to the signal without its highs, for squares of windows that overlap by
 * half add up to 1. That costs one short transform a block.
 * Source: R. E. Crochiere and L. R. Rabiner, Multirate Digital Signal Processing, 1983, chapter 7, from memory.
 */
export class LowSpectra {
  /** Bins that are wanted of a block's spectrum. */
  readonly bins: number;
  readonly #fade: Float64Array;
  readonly #window: Float64Array;
  readonly #fft: AnalysisFft;
  readonly #re: Float64Array;
  readonly #im: Float64Array;
  readonly #factor: number;
  readonly #lowRateHz: number;
  #long: LongBlocks;
  /** A signal each: the half that the block at hand completes, and the one that it begins. */
  readonly #now: readonly Float64Array[];
  readonly #next: readonly Float64Array[];
  readonly #make: () => LowSpectra;

  /** @param size  frames of the blocks whose spectra come, which overlap by half */
  constructor(rateHz: number, size: number, signals: number, pairs: readonly SignalPair[]) {
    const binHz = rateHz / size;
    this.bins = Math.min(Math.ceil(goneHz / binHz), size / 2);
    const frames = Math.min(size, fftSizeFor(2 * this.bins));
    const halves = () => Array.from({ length: signals }, () => new Float64Array(frames / 2));
    this.#factor = size / frames;
    this.#lowRateHz = rateHz / this.#factor;
    this.#fade = Float64Array.from({ length: this.bins }, (_, k) => fade(k * binHz) / this.#factor);
    this.#window = Float64Array.from({ length: frames }, (_, n) =>
      Math.sin((Math.PI * (n * this.#factor + 0.5)) / size),
    );
    this.#fft = new AnalysisFft(frames);
    this.#re = new Float64Array(frames);
    this.#im = new Float64Array(frames);
    const longFrames = Math.max(frames, fftSizeFor(this.#lowRateHz / widestBinHz));
    this.#long = new LongBlocks(longFrames, signals, pairs);
    this.#now = halves();
    this.#next = halves();
    this.#make = () => new LowSpectra(rateHz, size, signals, pairs);
  }

  /** The spectrum of a signal's next block, interleaved; of a silent block none need be given. */
  add(signal: number, spectrum: Float64Array): void {
    const re = this.#re.fill(0);
    const im = this.#im.fill(0);
    for (let k = 0; k < this.bins; k++) {
      const share = this.#fade[k];
      re[k] = share * spectrum[2 * k];
      im[k] = share * spectrum[2 * k + 1];
      if (k === 0) continue;
      re[re.length - k] = re[k];
      im[im.length - k] = -im[k];
    }
    this.#fft.inverse(re, im);
    const half = re.length / 2;
    const [now, next, window] = [this.#now[signal], this.#next[signal], this.#window];
    for (let n = 0; n < half; n++) {
      now[n] += window[n] * re[n];
      next[n] = window[half + n] * re[half + n];
    }
  }

  /** Ends the block at hand, of all signals. */
  closeBlock(): void {
    this.#long.push(this.#now);
    this.#now.forEach((now, s) => {
      now.set(this.#next[s]);
      this.#next[s].fill(0);
    });
  }

  /** The same, so that a sound can be ended and go on. */
  copy(): LowSpectra {
    const copy = this.#make();
    copy.#long = this.#long.copy();
    copy.#now.forEach((now, s) => {
      now.set(this.#now[s]);
    });
    return copy;
  }

  /** Ends the sound. */
  result(): LowBins {
    this.closeBlock();
    const products = this.#long.result().map((sums) => sums.map((sum) => sum * this.#factor));
    return { binHz: this.#lowRateHz / (2 * (products[0].length - 1)), products };
  }
}

const fade = (hz: number): number =>
  hz <= lowEndHz ? 1 : Math.cos((Math.PI / 2) * Math.min(1, (hz - lowEndHz) / (goneHz - lowEndHz))) ** 2;
