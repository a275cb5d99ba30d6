import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { RealAnalysisFft } from "../../sound/dsp/realAnalysisFft.js";
import { crossSpectrum, signalOf, spectrumOf } from "./sweepSpectrum.js";

/** Delays that are looked at. */
const earliestSeconds = 0.25;
const latestSeconds = 2;
/** Spectra are whitened by this power of their size: 1 would give noise-filled octaves a full vote. */
const whitening = 0.8;

/** The delay where the whitened correlation is largest, in whole frames, and how far it stands over the RMS. */
export function coarseLag(
  take: Float32Array,
  loop: Float32Array,
  rateHz: number,
): { lag: number; prominence: number } {
  const fft = new RealAnalysisFft(fftSizeFor(take.length + loop.length));
  const cross = crossSpectrum(spectrumOf(take, fft), spectrumOf(loop, fft), rateHz, [20, 0.45 * rateHz]);
  for (let k = 0; k < fft.size / 2; k++) {
    const size = Math.hypot(cross.re[k], cross.im[k]);
    const scale = size > 0 ? size ** -whitening : 0;
    cross.re[k] *= scale;
    cross.im[k] *= scale;
  }
  const correlation = signalOf(cross, fft);
  const first = -Math.min(take.length, Math.round(earliestSeconds * rateHz));
  const last = Math.min(loop.length, Math.round(latestSeconds * rateHz));
  let [lag, best, energy] = [0, 0, 0];
  for (let n = first; n <= last; n++) {
    const height = Math.abs(correlation[n < 0 ? n + fft.size : n]);
    energy += height * height;
    if (height > best) [lag, best] = [n, height];
  }
  return { lag, prominence: best / Math.sqrt(energy / (last - first + 1)) };
}
