import { powerToDb } from "../dsp/units.js";
import { type BandEnergies, bandEnergies, binShare } from "./bandEnergies.js";
import { thirdOctaveBands } from "./isoBands.js";
import type { StereoSpectrum } from "./spectrum.js";

const lowestHz = 50;
const highestHz = 16_000;
/** Thirds this far below the loudest hold rounding and the window's skirts. */
const emptyBelow = 1e-10;
/** Fewer points do not make a line. */
const leastThirds = 3;

/**
 * Centre of gravity of the power spectrum of both channels, 50 Hz to 16 kHz: sum(f P(f)) / sum(P(f)).
 *
 * @returns Hz; null when nothing sounds there
 * Source: closed form (first moment of the spectrum).
 */
export function centroidHzOf({ left, right, binHz }: StereoSpectrum): number | null {
  const l = momentsOf(left, binHz);
  const r = momentsOf(right, binHz);
  return centroidHzOfMoments({ zeroth: l.zeroth + r.zeroth, first: l.first + r.first });
}

/** The same from the moments of both channels, added. */
export const centroidHzOfMoments = ({ zeroth, first }: Moments): number | null =>
  zeroth > 0 ? first / zeroth : null;

/** sum(P(f)) and sum(f P(f)), f in Hz, from 50 Hz to 16 kHz. */
export interface Moments {
  readonly zeroth: number;
  readonly first: number;
}

/** Moments of one power or cross spectrum. */
export function momentsOf(powers: Float64Array, binHz: number): Moments {
  let first = 0;
  let zeroth = 0;
  const low = lowestHz / binHz;
  const high = highestHz / binHz;
  for (let k = Math.round(low); k <= Math.min(Math.round(high), powers.length - 1); k++) {
    const power = binShare(k, low, high) * powers[k];
    first += k * binHz * power;
    zeroth += power;
  }
  return { zeroth, first };
}

/**
 * Slope of the power density over frequency: the least-squares line through the third-octave levels from 50 Hz to
 * 16 kHz, each less 10 log10 of its bandwidth, against log2 of its centre. Thirds weigh the same, so octaves do too.
 *
 * @returns dB per octave: white noise 0, pink noise -3.01; null when fewer than three thirds hold sound
 * Source: least squares; white and pink from their densities, constant and 1/f.
 */
export function tiltDbPerOctaveOf(spectrum: StereoSpectrum): number | null {
  return tiltDbPerOctaveOfThirds(bandEnergies(spectrum, thirdOctaveBands));
}

/** The same from the energies of the third octaves. */
export function tiltDbPerOctaveOfThirds(energies: readonly (BandEnergies | null)[]): number | null {
  const thirds = energies
    .filter((third) => third !== null)
    .filter(({ band }) => band.centreHz >= lowestHz && band.centreHz <= highestHz)
    .map(({ band, left, right }) => ({ band, energy: left + right }));
  const least = emptyBelow * thirds.reduce((most, { energy }) => Math.max(most, energy), 0);
  const heard = thirds.filter(({ energy }) => energy > least);
  if (heard.length < leastThirds) return null;
  return slopeOf(
    heard.map(({ band }) => Math.log2(band.exactCentreHz)),
    heard.map(({ band, energy }) => powerToDb(energy / (band.highHz - band.lowHz))),
  );
}

/** Slope of the least-squares line through the points (x, y). */
export function slopeOf(x: ArrayLike<number>, y: ArrayLike<number>): number {
  const n = x.length;
  let sumX = 0;
  let sumY = 0;
  for (let i = 0; i < n; i++) {
    sumX += x[i];
    sumY += y[i];
  }
  let covariance = 0;
  let variance = 0;
  for (let i = 0; i < n; i++) {
    const dx = x[i] - sumX / n;
    covariance += dx * (y[i] - sumY / n);
    variance += dx * dx;
  }
  return covariance / variance;
}
