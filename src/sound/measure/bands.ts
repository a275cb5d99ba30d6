import { powerToDb } from "../dsp/units.js";
import { type BandEnergies, bandEnergies } from "./bandEnergies.js";
import { correlationOf } from "./correlation.js";
import { octaveBands, thirdOctaveBands } from "./isoBands.js";
import type { BandMeasures, ThirdMeasures } from "./measures.js";
import type { StereoSpectrum } from "./spectrum.js";

/** A band this far below the loudest holds rounding and the window's skirts, nothing to compare left and right by. */
const emptyBelow = 1e-10;
/** What is this far below the loudest band is not worth naming as a loss; common practice, no source. */
const faintBelow = 1e-6;
/** Smaller losses are none. */
const leastLossDb = 0.05;
/** A mono sum this far below its parts is rounding. */
const cancelledBelow = 1e-12;

/**
 * Octave bands: level (mean power of the two channels, dB re a full-scale square), correlation, side share and
 * fold-down loss, each as for the whole take but of the band's energy. `toDryDb` and `toReferenceDb` are left null.
 *
 * Null: every field of a band that does not end below half the rate; the level of a silent band; the three stereo
 * fields of a band over 100 dB below the loudest; correlation with one side silent; the loss of a band that cancels.
 * Source: IEC 61260-1:2014 for the edges; ideal rectangles, so a filter bank's skirts are not in it.
 */
export function octaveMeasures(spectrum: StereoSpectrum): BandMeasures[] {
  return octaveMeasuresOf(bandEnergies(spectrum, octaveBands), spectrum.frames);
}

/** The same from the energies of the octaves, in the order of `octaveBands`, of a sound of so many frames. */
export function octaveMeasuresOf(energies: readonly (BandEnergies | null)[], frames: number): BandMeasures[] {
  const least = emptyBelow * loudest(energies);
  return octaveBands.map(({ centreHz }, k) => {
    const band = energies[k];
    const heard = band !== null && band.left + band.right > least ? band : null;
    return {
      centreHz,
      levelDb: levelDb(band, frames),
      correlation: heard && correlationOf(heard),
      sideShare: heard && Math.max(0, 0.5 - heard.cross / (heard.left + heard.right)),
      foldDownLossDb: heard && finiteOrNull(foldDownLossDb(heard)),
      toDryDb: null,
      toReferenceDb: null,
    };
  });
}

/** Third-octave levels, as for the octaves. */
export function thirdOctaveMeasures(spectrum: StereoSpectrum): ThirdMeasures[] {
  return thirdOctaveMeasuresOf(bandEnergies(spectrum, thirdOctaveBands), spectrum.frames);
}

/** The same from the energies of the third octaves, in the order of `thirdOctaveBands`. */
export function thirdOctaveMeasuresOf(
  energies: readonly (BandEnergies | null)[],
  frames: number,
): ThirdMeasures[] {
  return thirdOctaveBands.map(({ centreHz }, k) => ({
    centreHz,
    levelDb: levelDb(energies[k], frames),
    toDryDb: null,
    toReferenceDb: null,
  }));
}

/**
 * Nominal centre, in Hz, of the octave that loses most when folded to mono, of those within 60 dB of the loudest.
 * Null when none loses 0.05 dB.
 */
export function worstFoldDownHz(spectrum: StereoSpectrum): number | null {
  return worstFoldDownHzOf(bandEnergies(spectrum, octaveBands));
}

/** The same from the energies of the octaves. */
export function worstFoldDownHzOf(energies: readonly (BandEnergies | null)[]): number | null {
  const least = faintBelow * loudest(energies);
  let worstDb = leastLossDb;
  let worstHz: number | null = null;
  for (const band of energies) {
    if (band === null || !(band.left + band.right > least)) continue;
    const lossDb = foldDownLossDb(band);
    if (lossDb <= worstDb) continue;
    worstDb = lossDb;
    worstHz = band.band.centreHz;
  }
  return worstHz;
}

/** 10 log10 of E(L) + E(R) over 2 E(m), m = (L+R)/2; Infinity when the band cancels. */
function foldDownLossDb({ left, right, cross }: BandEnergies): number {
  const folded = (left + right + 2 * cross) / 2;
  return folded > cancelledBelow * (left + right)
    ? powerToDb((left + right) / folded)
    : Number.POSITIVE_INFINITY;
}

function levelDb(band: BandEnergies | null, frames: number): number | null {
  if (band === null || !(band.left + band.right > 0)) return null;
  return powerToDb((band.left + band.right) / 2 / frames);
}

const loudest = (energies: readonly (BandEnergies | null)[]): number =>
  energies.reduce((most, band) => Math.max(most, band === null ? 0 : band.left + band.right), 0);

const finiteOrNull = (value: number): number | null => (Number.isFinite(value) ? value : null);
