import { type RealAnalysisFft, realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { dbToGain } from "../../sound/dsp/units.js";
import { type Spectrum, spectrumOf } from "./sweepSpectrum.js";
import { bandWeight, sweepSamples, type ToneLayout } from "./toneLayout.js";

/** Share of the sweep's own power that keeps the division sane outside the band; -80 dB does nothing inside it. */
const regularisation = 1e-8;

/**
 * Turns a recorded sweep into the response it went through: H = W Y conj(X) / (|X|^2 + r), W the band's weight, X the
 * spectrum of the sweep as it was played. Products of order n land L ln n ahead of the linear response.
 *
 * Source: Farina 2000, AES 108th Convention, preprint 5093. Division by the played sweep's own spectrum in place of
 * the paper's reversed sweep: the same inside the band, without the ripple at its ends (Kirkeby and Nelson 1999,
 * JAES 47(7), regularised inversion, from memory).
 */
export class SweepInverse {
  readonly fft: RealAnalysisFft;
  readonly layout: ToneLayout;
  readonly leadFrames: number;
  /** W, one value a bin from 0 to N/2. */
  readonly weight: Float64Array;
  readonly #re: Float64Array;
  readonly #im: Float64Array;

  /** @param leadFrames how far into each segment its sweep starts; a delay of 0 then lands on frame 0 */
  constructor(layout: ToneLayout, size: number, leadFrames = 0) {
    this.layout = layout;
    this.leadFrames = leadFrames;
    this.fft = realFftOf(size);
    const { rateHz, fromHz, levelDbfs } = layout.settings;
    const sweep = new Float64Array(leadFrames + layout.sweepFrames);
    sweep.set(sweepSamples(layout), leadFrames);
    const { re, im } = spectrumOf(sweep, this.fft);
    this.weight = new Float64Array(size / 2 + 1);
    const flatPower = (rateHz * dbToGain(levelDbfs)) ** 2 * (layout.timeConstantSeconds / 4);
    for (let k = 0; k <= size / 2; k++) {
      const frequencyHz = (k * rateHz) / size;
      const weight = k === 0 ? 0 : bandWeight(layout, frequencyHz);
      const guard = (regularisation * flatPower) / Math.max(frequencyHz, fromHz);
      const scale = weight / (re[k] * re[k] + im[k] * im[k] + guard);
      this.weight[k] = weight;
      re[k] *= scale;
      im[k] *= -scale;
    }
    this.#re = re;
    this.#im = im;
  }

  /** The response that repeat `n` of a straightened recording holds; the sweep's own clock, gap and lead included. */
  repeat(straight: ArrayLike<number>, n: number): Spectrum {
    const { sweepStarts, sweepFrames, gapFrames } = this.layout;
    const count = this.leadFrames + sweepFrames + gapFrames;
    return this.deconvolve(straight, sweepStarts[n] - this.leadFrames, count);
  }

  /** Spectrum of the response behind `count` frames of recording from frame `from`. */
  deconvolve(recording: ArrayLike<number>, from: number, count: number): Spectrum {
    const { re, im } = spectrumOf(recording, this.fft, from, count);
    const half = this.fft.size / 2;
    for (let k = 0; k <= half; k++) {
      const a = re[k];
      const b = im[k];
      re[k] = a * this.#re[k] - b * this.#im[k];
      im[k] = a * this.#im[k] + b * this.#re[k];
    }
    return { re, im };
  }
}
