import { kEnergies } from "./kEnergies.js";
import { lufsToPower, powerToLufs, windowPowers } from "./loudness.js";
import { percentile } from "./percentile.js";

const absoluteGateLufs = -70;
const relativeGateLu = -20;
/** 3 s every 100 ms, in steps of 10 ms. */
const shortTerm = { length: 300, hop: 10 };

/**
 * Loudness range: the 95th less the 10th percentile of the short-term loudness (3 s, every 100 ms) of what is at or
 * above -70 LUFS and not more than 20 LU below the mean power of that.
 *
 * @param channels  samples, full scale 1, channels of one length
 * @returns LU, 0 and up; null below 3 s and in silence. Below a minute it says little (Tech 3342).
 * @throws RangeError when lengths differ
 * Source: EBU Tech 3342 v4 (2023).
 */
export function loudnessRangeLu(channels: readonly Float32Array[], rateHz: number): number | null {
  return loudnessRangeLuOf(kEnergies(channels, rateHz), rateHz);
}

/** The same from the K-weighted energies of steps of 10 ms, all channels together. */
export function loudnessRangeLuOf(steps: readonly number[], rateHz: number): number | null {
  return loudnessRangeLuOfWindows(windowPowers(steps, rateHz, shortTerm));
}

/**
 * The same from the powers of all windows of 3 s, one every 100 ms.
 * @param scratch  as long as `powers`; written over
 */
export function loudnessRangeLuOfWindows(
  powers: Float64Array,
  scratch: Float64Array = new Float64Array(powers.length),
): number | null {
  const heard = notBelow(powers, lufsToPower(absoluteGateLufs), scratch);
  if (heard.length === 0) return null;
  let sum = 0;
  for (let k = 0; k < heard.length; k++) sum += heard[k];
  const relativeGate = (sum / heard.length) * 10 ** (relativeGateLu / 10);
  const counted = notBelow(heard, relativeGate, scratch);
  return powerToLufs(percentile(counted, 95)) - powerToLufs(percentile(counted, 10));
}

/** What of `powers` is at or above a gate, at the start of `kept`, which may be `powers` itself. */
function notBelow(powers: Float64Array, gate: number, kept: Float64Array): Float64Array {
  let count = 0;
  for (let k = 0; k < powers.length; k++) if (powers[k] >= gate) kept[count++] = powers[k];
  return kept.subarray(0, count);
}
