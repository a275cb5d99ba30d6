import { powerToDb } from "../dsp/units.js";
import { type StereoEnergies, stereoEnergies } from "./stereoSums.js";

/**
 * Left over right: 10 log10(E(L) / E(R)), in dB; positive leans left.
 *
 * @param left   samples, full scale 1, any length
 * @param right  samples, as many as `left`
 * @returns Infinity when only the left sounds, -Infinity when only the right does; null when neither does
 * @throws RangeError when the lengths differ
 */
export function balanceDb(left: Float32Array, right: Float32Array): number | null {
  return balanceDbOf(stereoEnergies(left, right));
}

/** The same from energies. */
export function balanceDbOf({ left, right }: Pick<StereoEnergies, "left" | "right">): number | null {
  return left + right > 0 ? powerToDb(left / right) : null;
}
