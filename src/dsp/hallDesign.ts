import { type Absorption, absorption } from "./absorption.js";
import { primesNear } from "./primes.js";

export const hallLines = 16;

export interface HallSettings {
  readonly decaySeconds: number;
  readonly dampingHz: number;
  readonly sizeMetres: number;
  readonly rateHz: number;
}
export interface HallLine extends Absorption {
  readonly delayFrames: number;
}

/** Speed of sound at 20 degrees Celsius. */
const soundMetresPerSecond = 343;

/** Longest line to shortest. */
const spread = 3.2;

/**
 * Seconds between two walls on average: the mean free path 4V/S of a cube of that side, over the speed of sound.
 * Source: C. W. Kosten, "The mean free path in room acoustics", Acustica 10, 1960 (from memory).
 */
export const meanFlightSeconds = (sizeMetres: number): number =>
  ((2 / 3) * sizeMetres) / soundMetresPerSecond;

/** The longest line, against the mean of all. */
const longestShare = (spread * Math.log(spread)) / (spread - 1);
export const longestFlightSeconds = (sizeMetres: number): number =>
  longestShare * meanFlightSeconds(sizeMetres);

/**
 * Sixteen lines, in equal ratios from the shortest to 3.2 times that, their mean the mean flight of the room. Lengths
 * are different primes, so that no two lines' echoes fall together for long. Each absorbs by its length.
 */
export function hallDesign({
  decaySeconds,
  dampingHz,
  sizeMetres,
  rateHz,
}: HallSettings): readonly HallLine[] {
  const longest = longestFlightSeconds(sizeMetres) * rateHz;
  const wanted = Array.from({ length: hallLines }, (_, i) => longest * spread ** ((i + 0.5) / hallLines - 1));
  return primesNear(wanted).map((delayFrames) => ({
    delayFrames,
    ...absorption({ frames: delayFrames, decaySeconds, dampingHz, rateHz }),
  }));
}

/**
 * The gain of an output that sums lines by `weights`, for unit energy from one input that feeds all lines, where damping
 * does not work yet: with echoes unrelated, the energy entering each line is e = 1 / (1 - mean of the lines' G).
 */
export function hallLevel(lines: readonly HallLine[], weights: readonly number[]): number {
  const energies = lines.map(({ gainAtReference }) => gainAtReference ** 2);
  const entering = 1 / (1 - energies.reduce((sum, energy) => sum + energy, 0) / lines.length);
  return 1 / Math.sqrt(entering * energies.reduce((sum, energy, i) => sum + weights[i] ** 2 * energy, 0));
}
