import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { type RealAnalysisFft, realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { copyOf, crossSpectrum, type Spectrum, signalOf, spectrumOf } from "./sweepSpectrum.js";

/** Delays that a loop has, and those at which a take that repeats may fit as well. */
const earliestSeconds = 0.25;
const latestSeconds = 2;
const farthestSeconds = 10;
/** A delay beyond the usual ones is taken where its peak is so much higher. */
const fartherHeight = 1.3;
/** Spectra are whitened by this power of their size: 1 would give noise-filled octaves a full vote. */
const whitening = 0.8;
/**
 * Where a take repeats is looked for with less whitening, so that its loud parts count, this far from the best lag and
 * from this share of its height on: real guitars that do not repeat gave up to 0.19, a bar played twice 0.33 or more, one
 * played six times 0.51.
 */
const repeatWhitening = 0.5;
const otherSeconds = 0.1;
const otherShare = 0.27;

export interface CoarseLag {
  /** Whole frames. */
  readonly lag: number;
  /** The peak of the whitened correlation over its RMS. */
  readonly prominence: number;
  /** The highest peak elsewhere, and its height against the best; null where none comes near. */
  readonly other: { readonly lag: number; readonly share: number } | null;
}

/** The delay where the whitened correlation is largest, and another one that may be it as well. */
export function coarseLag(take: Float32Array, loop: Float32Array, rateHz: number): CoarseLag {
  const fft = realFftOf(fftSizeFor(take.length + loop.length));
  const cross = crossSpectrum(spectrumOf(take, fft), spectrumOf(loop, fft), rateHz, [20, 0.45 * rateHz]);
  const first = -Math.min(take.length, Math.round(earliestSeconds * rateHz));
  const last = Math.min(loop.length, Math.round(latestSeconds * rateHz));
  const farthest = Math.min(loop.length, Math.round(farthestSeconds * rateHz));
  const height = heightsOf(whitened(cross, whitening), fft);
  let energy = 0;
  for (let n = first; n <= last; n++) energy += height(n) ** 2;
  const near = highest(height, first, last);
  const far = highest(height, last + 1, farthest);
  const lag = far !== null && height(far) > fartherHeight * height(near ?? 0) ? far : (near ?? 0);
  const prominence = height(lag) / Math.sqrt(energy / (last - first + 1));
  const loud = heightsOf(whitened(cross, repeatWhitening), fft);
  const apart = Math.round(otherSeconds * rateHz);
  const [ahead, behind] = [highest(loud, first, lag - apart), highest(loud, lag + apart, farthest)];
  const other = ahead === null || (behind !== null && loud(behind) > loud(ahead)) ? behind : ahead;
  const share = other === null ? 0 : loud(other) / loud(lag);
  return { lag, prominence, other: other !== null && share >= otherShare ? { lag: other, share } : null };
}

function whitened(cross: Spectrum, by: number): Spectrum {
  const { re, im } = copyOf(cross);
  for (let k = 0; k < re.length - 1; k++) {
    const size = Math.hypot(re[k], im[k]);
    const scale = size > 0 ? size ** -by : 0;
    re[k] *= scale;
    im[k] *= scale;
  }
  return { re, im };
}

function heightsOf(cross: Spectrum, fft: RealAnalysisFft): (lag: number) => number {
  const correlation = signalOf(cross, fft);
  return (lag) => Math.abs(correlation[lag < 0 ? lag + fft.size : lag]);
}

function highest(height: (lag: number) => number, first: number, last: number): number | null {
  let best: number | null = null;
  for (let n = first; n <= last; n++) if (best === null || height(n) > height(best)) best = n;
  return best;
}
