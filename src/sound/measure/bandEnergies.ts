import { powerToDb } from "../dsp/units.js";
import type { Band } from "./isoBands.js";
import { isLowBand } from "./lowSpectra.js";
import type { StereoSpectrum } from "./spectrum.js";

/** Energies of one band. */
export interface BandEnergies {
  readonly band: Band;
  readonly left: number;
  readonly right: number;
  /** sum(L*R) of what lies in the band: the real part of the cross spectrum. */
  readonly cross: number;
}

/**
 * Energy in each band: the sum of the spectrum's bins, a bin that an edge cuts counting by the share of its width that
 * lies inside. The bands are rectangles with no skirts, so the octaves add up to the whole from 22.4 Hz to 22.4 kHz.
 *
 * @returns one entry a band; null for a band that does not end below half the rate
 */
export function bandEnergies(spectrum: StereoSpectrum, bands: readonly Band[]): (BandEnergies | null)[] {
  return bands.map((band) => (band.highHz > spectrum.rateHz / 2 ? null : energiesIn(spectrum, band)));
}

function energiesIn(spectrum: StereoSpectrum, band: Band): BandEnergies {
  const { left, right, cross, binHz } = binsFor(spectrum, band);
  const low = band.lowHz / binHz;
  const high = band.highHz / binHz;
  let ll = 0;
  let rr = 0;
  let lr = 0;
  for (let k = Math.round(low); k <= Math.min(Math.round(high), left.length - 1); k++) {
    const share = binShare(k, low, high);
    ll += share * left[k];
    rr += share * right[k];
    lr += share * cross[k];
  }
  return { band, left: ll, right: rr, cross: lr };
}

/** Low bands need finer bins. */
function binsFor({ low, binHz, left, right, crossReal }: StereoSpectrum, band: Band) {
  if (!isLowBand(band)) return { binHz, left, right, cross: crossReal };
  const [lowLeft, lowRight, cross] = low.products;
  return { binHz: low.binHz, left: lowLeft, right: lowRight, cross };
}

/** Share of bin k, which reaches half a bin either way, that lies between two edges counted in bins. */
export const binShare = (k: number, low: number, high: number): number =>
  Math.min(k + 0.5, high) - Math.max(k - 0.5, low);

/** A mono sum this far below its parts is rounding. */
const cancelledBelow = 1e-12;

/** 10 log10 of E(L) + E(R) over 2 E(m), m = (L+R)/2; Infinity when the band cancels. */
export function foldDownOf({ left, right, cross }: BandEnergies): number {
  const folded = (left + right + 2 * cross) / 2;
  return folded > cancelledBelow * (left + right)
    ? powerToDb((left + right) / folded)
    : Number.POSITIVE_INFINITY;
}

/** Energy of the loudest band. */
export const loudest = (energies: readonly (BandEnergies | null)[]): number =>
  energies.reduce((most, band) => Math.max(most, band === null ? 0 : band.left + band.right), 0);
