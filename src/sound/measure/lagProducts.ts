import { AnalysisFft } from "../dsp/analysisFft.js";
import type { StereoSpectrum } from "./spectrum.js";

/** Lags looked at, either way: the path round a head. ISO 3382-1:2009, Annex B. */
const longestLagSeconds = 0.001;

/**
 * sum(L[n + lag] R[n]) at whole lags from -1 ms to +1 ms: the inverse transform of the cross spectrum. Blocks under a
 * sine window that overlap by half weigh a product of frames that lie `lag` apart by cos(pi * lag / size), wherever it
 * lies; that is taken out again. What is left, where lags reach across a block's edge, is below 1e-6.
 */
export function lagProducts(cross: CrossSpectrum, rateHz: number): Float64Array {
  const products = crossCorrelation(cross);
  const size = products.length;
  const longest = Math.floor(longestLagSeconds * rateHz);
  return Float64Array.from({ length: 2 * longest + 1 }, (_, n) => {
    const lag = n - longest;
    return products[lag < 0 ? size + lag : lag] / Math.cos((Math.PI * lag) / size);
  });
}

type CrossSpectrum = Pick<StereoSpectrum, "crossReal" | "crossImaginary">;

/** sum(L[n + lag] R[n]) at entry `lag`, negative lags from the end. */
function crossCorrelation({ crossReal, crossImaginary }: CrossSpectrum): Float64Array {
  const half = crossReal.length - 1;
  const size = 2 * half;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let k = 0; k <= half; k++) {
    const share = k === 0 || k === half ? size : size / 2;
    re[k] = crossReal[k] * share;
    im[k] = crossImaginary[k] * share;
    if (k === 0 || k === half) continue;
    re[size - k] = re[k];
    im[size - k] = -im[k];
  }
  new AnalysisFft(size).inverse(re, im);
  return re;
}
