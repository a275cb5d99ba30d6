import { type HallNetworkLine, hallGroups, hallLines } from "../loops/hall.js";
import { type Absorption, absorption } from "./absorption.js";
import { primesNear } from "./primes.js";

export interface HallSettings {
  readonly decaySeconds: number;
  readonly dampingHz: number;
  readonly sizeMetres: number;
  readonly rateHz: number;
}
export interface HallLine extends Absorption, HallNetworkLine {}

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
 * Twelve lines, in equal ratios from the shortest to 3.2 times that, their mean the mean flight of the room. Lengths
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

/** How much an output hears of the lines that the other side's input feeds. */
const across = 0.6;

/**
 * What the outputs, left and right, hear of the network's sums, which stand behind the reflection within the groups. Of
 * the lines themselves they then hear [1, -across, 1, -across] and [across, 1, -across, -1]. The rows are orthogonal, so
 * that lines that have nothing in common give outputs that have nothing in common.
 */
export const hallWeights = [
  [across, -1, across, -1],
  [across, 1, -across, -1],
] as const;

/**
 * The outputs' gain for unit energy from one input that feeds all lines, where damping does not work: with echoes
 * unrelated, the energy entering each line is e = 1 / (1 - mean of the lines' G), and what leaves them is e G.
 */
export function hallLevel(lines: readonly HallLine[]): number {
  const leaving = lines.reduce((sum, { gainAtReference }) => sum + gainAtReference ** 2, 0) / lines.length;
  const heard = hallGroups * hallWeights[0].reduce<number>((sum, weight) => sum + weight ** 2, 0);
  return 1 / Math.sqrt((heard * leaving) / (1 - leaving));
}
