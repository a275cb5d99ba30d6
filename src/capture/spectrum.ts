import type { AnalysisFft } from "../dsp/analysisFft.js";

/** All N bins of a complex spectrum, bin k at k * rateHz / N. */
export interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Spectrum of `count` samples from frame `from`; frames outside the signal, and up to the size, count as zeros. */
export function spectrumOf(
  signal: ArrayLike<number>,
  fft: AnalysisFft,
  from = 0,
  count = signal.length,
): Spectrum {
  const re = new Float64Array(fft.size);
  const im = new Float64Array(fft.size);
  const first = Math.max(0, -from);
  const end = Math.min(count, signal.length - from, fft.size);
  for (let n = first; n < end; n++) re[n] = signal[from + n];
  fft.forward(re, im);
  return { re, im };
}

/** The real signal of a spectrum. Works in the spectrum's own memory, which is spent afterwards. */
export function signalOf({ re, im }: Spectrum, fft: AnalysisFft): Float64Array {
  fft.inverse(re, im);
  return re;
}

/** conj(A) B, bin by bin, for bins from `lowHz` to `highHz`; zero elsewhere and at negative frequencies. */
export function crossSpectrum(
  a: Spectrum,
  b: Spectrum,
  rateHz: number,
  [lowHz, highHz]: readonly [number, number],
): Spectrum {
  const size = a.re.length;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  const last = Math.min(size / 2 - 1, Math.floor((highHz * size) / rateHz));
  for (let k = Math.max(1, Math.ceil((lowHz * size) / rateHz)); k <= last; k++) {
    re[k] = a.re[k] * b.re[k] + a.im[k] * b.im[k];
    im[k] = a.re[k] * b.im[k] - a.im[k] * b.re[k];
  }
  return { re, im };
}

/**
 * Where the correlation behind a cross-spectrum is largest in size, among whole delays from `least` to `most` frames.
 * `highest` takes only likes: of a peak and a dip the peak. Delays wrap at N: keep them within N/2 either way.
 */
export function coarseDelay(
  cross: Spectrum,
  fft: AnalysisFft,
  { least, most, highest = false }: { least: number; most: number; highest?: boolean },
): number {
  const correlation = signalOf({ re: cross.re.slice(), im: cross.im.slice() }, fft);
  let best = least;
  let bestHeight = Number.NEGATIVE_INFINITY;
  for (let lag = least; lag <= most; lag++) {
    const value = correlation[lag < 0 ? lag + fft.size : lag];
    const height = highest ? value : Math.abs(value);
    if (height > bestHeight) {
      bestHeight = height;
      best = lag;
    }
  }
  return best;
}
