import type { LevelReference } from "../../rig/model/rig.js";

/** Full scale of a sine's RMS over the square root of its mean square: 20 log10(sqrt 2). */
const sineDb = 10 * Math.log10(2);

/**
 * Mean square of samples to dBFS as a sine has it: a sine whose peak reads -18 dBFS also has an RMS of -18 dBFS.
 * Source: AES17's convention, a full-scale sine is 0 dBFS RMS (from memory).
 * @returns -Infinity for silence
 */
export const meanSquareToDbfs = (meanSquare: number): number => 10 * Math.log10(meanSquare) + sineDb;

/**
 * dBFS of a sine (its peak, or its RMS as above) to dBu on the cable.
 * Source: 0 dBu is sqrt(0.6) V RMS; the rig's reference says where full scale stands to it.
 */
export const dbfsToDbu = (dbfs: number, reference: LevelReference): number =>
  dbfs - reference.dbfs + reference.dbu;

/** The way back: dBu to the peak in dBFS of a sine of that level. */
export const dbuToDbfs = (dbu: number, reference: LevelReference): number =>
  dbu - reference.dbu + reference.dbfs;

/** dBu to volts RMS: sqrt(0.6) * 10^(dBu / 20); 0 dBu is 0.774597 V. */
export const dbuToVolts = (dbu: number): number => Math.sqrt(0.6) * 10 ** (dbu / 20);
