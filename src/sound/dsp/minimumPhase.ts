import { AnalysisFft } from "./analysisFft.js";

/** Points round the circle: so many that what wraps round in time is nothing. */
const points = 16_384;
/** Taps end where the rest of their energy is this share of the whole. */
const restShare = 1e-10;

/**
 * The shortest response in energy that has a given level over frequency: taps h with 20 log10 |H(f)| = levelDb(f) from
 * 0 Hz to half the rate, and with no delay that the level does not call for.
 *
 * The logarithm of the magnitude is even; its inverse transform, folded onto positive times, is that of a response
 * whose poles and zeros lie within the unit circle, and its exponential is the response.
 *
 * Source: A. V. Oppenheim, R. W. Schafer, "Discrete-Time Signal Processing", on the complex cepstrum of minimum-phase
 * sequences (from memory).
 *
 * @param levelDb  finite from 0 Hz to half the rate, dB
 * @returns at most half of 16 384 taps
 */
export function minimumPhaseTaps(levelDb: (hz: number) => number, rateHz: number): Float32Array {
  const half = points / 2;
  const fft = new AnalysisFft(points);
  const re = new Float64Array(points);
  const im = new Float64Array(points);
  for (let k = 0; k <= half; k++) re[k] = (levelDb((k * rateHz) / points) * Math.LN10) / 20;
  for (let k = 1; k < half; k++) re[points - k] = re[k];
  fft.inverse(re, im);
  for (let n = 1; n < half; n++) re[n] *= 2;
  re.fill(0, half + 1);
  im.fill(0);
  fft.forward(re, im);
  for (let k = 0; k < points; k++) {
    const magnitude = Math.exp(re[k]);
    re[k] = magnitude * Math.cos(im[k]);
    im[k] = magnitude * Math.sin(im[k]);
  }
  fft.inverse(re, im);
  return Float32Array.from(re.subarray(0, usedTaps(re.subarray(0, half))));
}

function usedTaps(taps: Float64Array): number {
  const energy = taps.reduce((sum, tap) => sum + tap * tap, 0);
  let rest = 0;
  let count = taps.length;
  while (count > 1 && rest + taps[count - 1] ** 2 <= restShare * energy) rest += taps[--count] ** 2;
  return count;
}
