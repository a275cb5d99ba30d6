import { type BandEnergies, bandEnergies } from "./bandEnergies.js";
import { octaveBands, thirdOctaveBands } from "./isoBands.js";
import { lagProducts } from "./lagProducts.js";
import { type Moments, momentsOf } from "./moments.js";
import type { StereoSpectrum } from "./spectrum.js";

/** What measures read of a spectrum. */
export interface SpectrumFacts {
  /** In the order of `octaveBands`; null past half the rate. */
  readonly octaves: readonly (BandEnergies | null)[];
  readonly thirds: readonly (BandEnergies | null)[];
  /** Of both channels, added. */
  readonly moments: Moments;
  /** sum(L[n + lag] R[n]) at whole lags from -1 ms to 1 ms. */
  readonly lags: Float64Array;
  /** E(L) E(R), summed as the lags are. */
  readonly lagEnergies: number;
}

export function spectrumFacts(spectrum: StereoSpectrum): SpectrumFacts {
  const { left, right, binHz, rateHz } = spectrum;
  const [l, r] = [momentsOf(left, binHz), momentsOf(right, binHz)];
  return {
    octaves: bandEnergies(spectrum, octaveBands),
    thirds: bandEnergies(spectrum, thirdOctaveBands),
    moments: { zeroth: l.zeroth + r.zeroth, first: l.first + r.first },
    lags: lagProducts(spectrum, rateHz),
    lagEnergies: total(left) * total(right),
  };
}

const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);
