/**
 * sin(pi (n + 1/2) / size): squares of two blocks that overlap by half add up to 1.
 * Source: J. P. Princen and A. B. Bradley, "Analysis/synthesis filter bank design based on time domain aliasing
 * cancellation", IEEE Trans. ASSP 34(5), 1986.
 */
export const sineWindow = (size: number): Float64Array =>
  Float64Array.from({ length: size }, (_, n) => Math.sin((Math.PI * (n + 0.5)) / size));

/** Sums of products of spectra, times `gain`, as energies: all bins but the first and the last count for two. */
export const oneSidedEnergies = (sums: Float64Array, gain: number): Float64Array =>
  sums.map((value, k) => value * gain * (k === 0 || k === sums.length - 1 ? 1 : 2));
