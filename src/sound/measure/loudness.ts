import { powerToDb } from "../dsp/units.js";
import { foldedSteps, kEnergies, loudnessStepsPerSecond, stereoSteps } from "./kEnergies.js";
import { framesOfSteps, type StepEnergies, windowSum } from "./stepSums.js";

/** Offset that makes a 997 Hz sine at 0 dBFS in one channel read -3.01 LKFS; BS.1770-5, Annex 1, eq. 2. */
const offsetLufs = -0.691;
const absoluteGateLufs = -70;
const relativeGateLu = -10;

/** Length and hop in steps of 10 ms. */
interface Windows {
  readonly length: number;
  readonly hop: number;
}
/** Blocks: BS.1770-5, Annex 1. The hop of the other two: see `momentaryLufs`. */
const gatingBlock = { length: 40, hop: 10 };
export const momentaryWindows: Windows = { length: 40, hop: 1 };
export const shortTermWindows: Windows = { length: 300, hop: 1 };

/**
 * Programme loudness: -0.691 + 10 log10(sum of the channels' weighted mean squares) over the 400 ms blocks (hop 100 ms)
 * that are above -70 LUFS and above the mean of those less 10 LU. A last block that is not full is dropped.
 *
 * @param channels  samples, full scale 1, one to five channels of one length
 * @param weights   one factor a channel: 1 for L, R, C; 1.41 for Ls, Rs. Default: 1 each
 * @returns LUFS; null when nothing is above the absolute gate: silence, or less than 400 ms
 * @throws RangeError when lengths differ
 * Source: ITU-R BS.1770-5 (2023), Annex 1; EBU R 128 v5 (2023).
 */
export function integratedLufs(
  channels: readonly Float32Array[],
  rateHz: number,
  weights?: readonly number[],
) {
  return integratedLufsOfBlocks(windowPowers(kEnergies(channels, rateHz, weights), rateHz, gatingBlock));
}

/**
 * Loudness of every 400 ms, not gated, every 10 ms: with the 100 ms that the standard asks for at least, EBU Tech 3341
 * case 13 would read 0.45 LU low. -Infinity in silence; empty below 400 ms.
 * Source: EBU Tech 3341 v4 (2023), 2.2.
 */
export function momentaryLufs(channels: readonly Float32Array[], rateHz: number): Float64Array {
  return windowPowers(kEnergies(channels, rateHz), rateHz, momentaryWindows).map(powerToLufs);
}

/** Loudness of every 3 s, not gated, every 10 ms. Empty below 3 s. Source: EBU Tech 3341 v4 (2023), 2.2. */
export function shortTermLufs(channels: readonly Float32Array[], rateHz: number): Float64Array {
  return windowPowers(kEnergies(channels, rateHz), rateHz, shortTermWindows).map(powerToLufs);
}

/** The loudest 400 ms, LUFS; null in silence and below 400 ms. */
export function momentaryMaxLufs(channels: readonly Float32Array[], rateHz: number): number | null {
  return loudestLufs(windowPowers(kEnergies(channels, rateHz), rateHz, momentaryWindows));
}

/** The loudest 3 s, LUFS; null in silence and below 3 s. */
export function shortTermMaxLufs(channels: readonly Float32Array[], rateHz: number): number | null {
  return loudestLufs(windowPowers(kEnergies(channels, rateHz), rateHz, shortTermWindows));
}

/** As `integratedLufs`, from the powers of its 400 ms blocks, one every 100 ms: sums of the channels' weighted mean squares. */
export function integratedLufsOfBlocks(powers: Float64Array): number | null {
  const gate = gateOf(powers);
  return gate === null ? null : powerToLufs(meanPower(powers, gate));
}

/** The power that a 400 ms block must exceed to count in the loudness of its programme; null when none does. */
export function gateOf(powers: Float64Array): number | null {
  const absoluteGate = lufsToPower(absoluteGateLufs);
  const mean = meanPower(powers, absoluteGate);
  if (Number.isNaN(mean)) return null;
  const relativeGate = mean * 10 ** (relativeGateLu / 10);
  return Math.max(absoluteGate, relativeGate);
}

/** Powers of K-weighted windows of both channels together, all that measures of loudness read. */
export interface LoudnessPowers {
  /** Every 400 ms and every 3 s, one every 10 ms. */
  readonly momentary: Float64Array;
  readonly shortTerm: Float64Array;
  /** The gating blocks: 400 ms, one every 100 ms. */
  readonly blocks: Float64Array;
  /** Those of (m, m), m = (L+R)/2. */
  readonly foldedBlocks: Float64Array;
  /** 3 s, one every 100 ms. */
  readonly rangeWindows: Float64Array;
}

/** @param energies K-weighted, in steps of 10 ms */
export function loudnessPowers(energies: StepEnergies): LoudnessPowers {
  const { rateHz } = energies;
  const steps = stereoSteps(energies);
  const [momentary, shortTerm] = [momentaryWindows, shortTermWindows].map((windows) =>
    windowPowers(steps, rateHz, windows),
  );
  return {
    momentary,
    shortTerm,
    blocks: everyHop(momentary),
    foldedBlocks: windowPowers(foldedSteps(energies), rateHz, gatingBlock),
    rangeWindows: everyHop(shortTerm),
  };
}

/** One window of a gating block and of the loudness range for so many of the others, which come every 10 ms. */
export const hop = gatingBlock.hop;

/** What comes every 100 ms of what comes every 10 ms; into `out`, which it fills. */
export function everyHop(
  values: Float64Array,
  out: Float64Array = new Float64Array(Math.ceil(values.length / hop)),
): Float64Array {
  for (let k = 0; k < out.length; k++) out[k] = values[k * hop];
  return out;
}

export const powerToLufs = (power: number): number => offsetLufs + powerToDb(power);
export const lufsToPower = (lufs: number): number => 10 ** ((lufs - offsetLufs) / 10);

/** Mean squares of windows that are `length` steps of 10 ms long, one every `hop` steps, the first at the start. */
export function windowPowers(
  steps: ArrayLike<number>,
  rateHz: number,
  { length, hop }: Windows,
): Float64Array {
  const grid = { rateHz, stepsPerSecond: loudnessStepsPerSecond };
  const count = Math.max(0, Math.floor((steps.length - length) / hop) + 1);
  return new Float64Array(count).map(
    (_, k) => windowSum(steps, k * hop, length) / framesOfSteps(k * hop, length, grid),
  );
}

/** Mean of the powers above `gate`; NaN where none is. */
function meanPower(powers: Float64Array, gate: number): number {
  let sum = 0;
  let count = 0;
  for (let k = 0; k < powers.length; k++) {
    if (powers[k] > gate) {
      sum += powers[k];
      count++;
    }
  }
  return sum / count;
}

/** Loudness of the loudest of some windows, by their powers; null in silence. */
export function loudestLufs(powers: Float64Array): number | null {
  let loudest = 0;
  for (let k = 0; k < powers.length; k++) if (powers[k] > loudest) loudest = powers[k];
  return loudest > 0 ? powerToLufs(loudest) : null;
}
