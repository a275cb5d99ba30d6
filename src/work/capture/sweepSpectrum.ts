import type { RealAnalysisFft } from "../../sound/dsp/realAnalysisFft.js";

/** Bins 0 to N/2 of a real signal's spectrum, bin k at k * rateHz / N. */
export interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** N of a spectrum. */
export const sizeOf = ({ re }: Spectrum): number => 2 * (re.length - 1);

export function emptySpectrum(size: number): Spectrum {
  return { re: new Float64Array(size / 2 + 1), im: new Float64Array(size / 2 + 1) };
}

export const copyOf = ({ re, im }: Spectrum): Spectrum => ({ re: re.slice(), im: im.slice() });

/** Spectrum of `count` samples from frame `from`; frames outside the signal, and up to the size, count as zeros. */
export function spectrumOf(
  signal: ArrayLike<number>,
  fft: RealAnalysisFft,
  from = 0,
  count = signal.length,
): Spectrum {
  const padded = new Float64Array(fft.size);
  const end = Math.min(count, signal.length - from, fft.size);
  for (let n = Math.max(0, -from); n < end; n++) padded[n] = signal[from + n];
  const { re, im } = emptySpectrum(fft.size);
  fft.forward(padded, re, im);
  return { re, im };
}

/** The real signal of a spectrum. */
export function signalOf({ re, im }: Spectrum, fft: RealAnalysisFft): Float64Array {
  const signal = new Float64Array(fft.size);
  fft.inverse(re, im, signal);
  return signal;
}

/** conj(A) B, bin by bin, for bins from `lowHz` to `highHz`; zero elsewhere. */
export function crossSpectrum(
  a: Spectrum,
  b: Spectrum,
  rateHz: number,
  [lowHz, highHz]: readonly [number, number],
): Spectrum {
  const size = sizeOf(a);
  const { re, im } = emptySpectrum(size);
  const last = Math.min(size / 2 - 1, Math.floor((highHz * size) / rateHz));
  for (let k = Math.max(1, Math.ceil((lowHz * size) / rateHz)); k <= last; k++) {
    re[k] = a.re[k] * b.re[k] + a.im[k] * b.im[k];
    im[k] = a.re[k] * b.im[k] - a.im[k] * b.re[k];
  }
  return { re, im };
}

/** The spectrum of a signal `frames` earlier, any fraction. */
export function advanced(spectrum: Spectrum, frames: number): Spectrum {
  const { re, im } = copyOf(spectrum);
  const step = (2 * Math.PI * frames) / sizeOf(spectrum);
  for (let k = 0; k < re.length; k++) {
    const c = Math.cos(k * step);
    const s = Math.sin(k * step);
    const x = re[k];
    re[k] = x * c - im[k] * s;
    im[k] = x * s + im[k] * c;
  }
  return { re, im };
}

/**
 * The whole delay, within `most` frames either way, where the correlation behind a cross-spectrum is highest. Delays
 * wrap at N: keep them within N/2.
 */
export function highestLag(cross: Spectrum, fft: RealAnalysisFft, most: number): number {
  const correlation = signalOf(cross, fft);
  const at = (lag: number) => correlation[lag < 0 ? lag + fft.size : lag];
  let best = 0;
  for (let lag = -most; lag <= most; lag++) if (at(lag) > at(best)) best = lag;
  return best;
}
