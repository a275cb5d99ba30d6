import { AnalysisFft } from "../dsp/analysisFft.js";
import { type StereoSpectrum, stereoSpectrum } from "./spectrum.js";

/** Lags looked at, either way: the path round a head. ISO 3382-1:2009, Annex B. */
const longestLagSeconds = 0.001;

/**
 * Largest absolute cross-correlation of the channels within +-1 ms, over sqrt(E(L) * E(R)), at whole frames.
 * The standard defines it for the two ears of a listener; here it is taken on the channels.
 *
 * @param left   samples, full scale 1
 * @param right  samples, as many as `left`
 * @returns 0 to 1; 1 for mono, for opposite polarity, and for one channel that is the other delayed by up to 1 ms; null
 *   when either channel is silent
 * @throws RangeError when the lengths differ
 * Source: ISO 3382-1:2009, Annex B, over the whole take.
 */
export function iacc(left: Float32Array, right: Float32Array, rateHz: number): number | null {
  return iaccOf(stereoSpectrum(left, right, rateHz));
}

/**
 * The same from the cross spectrum, whose inverse transform is the cross-correlation. Blocks under a sine window that
 * overlap by half weigh a product of frames that lie `lag` apart by cos(pi * lag / size), wherever it lies; that is
 * taken out again. What is left, where lags reach across a block's edge, is below 1e-6.
 */
export function iaccOf(spectrum: StereoSpectrum): number | null {
  return iaccOfLags(lagProducts(spectrum, spectrum.rateHz), total(spectrum.left) * total(spectrum.right));
}

/** The same from the cross-correlation at the lags of `lagProducts`, and E(L) E(R). */
export function iaccOfLags(products: ArrayLike<number>, energies: number): number | null {
  const norm = Math.sqrt(energies);
  if (!(norm > 0)) return null;
  let largest = 0;
  for (let n = 0; n < products.length; n++) largest = Math.max(largest, Math.abs(products[n]));
  return Math.min(1, largest / norm);
}

/** sum(L[n + lag] R[n]) at whole lags from -1 ms to +1 ms. */
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

const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);
