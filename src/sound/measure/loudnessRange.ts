import { kEnergies } from "./kEnergies.js";
import { lufsToPower, powerToLufs, windowPowers } from "./loudness.js";
import { numberMeasure } from "./numberMeasure.js";
import { percentile, scratch } from "./percentile.js";
import { shorterThan } from "./why.js";

export const loudnessRangeMeasure = numberMeasure({
  id: "loudnessRangeLu",
  from: "sound",
  needs: ["loudness"],
  value: ({ loudness }) => loudnessRangeLuOf(loudness.rangeWindows),
  why: (facts) => shorterThan(3, facts) ?? "no 3 s reach -70 LUFS",
  means: "95th less 10th percentile of the short-term loudness above both gates, LU",
  source: "EBU Tech 3342 v4 (2023)",
  name: "loudness range",
  unit: "LU",
  format: { fixed: 1 },
  better: null,
  tables: {},
});

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
  return loudnessRangeLuOf(windowPowers(kEnergies(channels, rateHz), rateHz, shortTerm));
}

/** The same from the powers of all windows of 3 s, one every 100 ms. */
function loudnessRangeLuOf(powers: Float64Array): number | null {
  const kept = scratch(powers.length);
  const heard = notBelow(powers, lufsToPower(absoluteGateLufs), kept);
  if (heard.length === 0) return null;
  let sum = 0;
  for (let k = 0; k < heard.length; k++) sum += heard[k];
  const relativeGate = (sum / heard.length) * 10 ** (relativeGateLu / 10);
  const counted = notBelow(heard, relativeGate, kept);
  return powerToLufs(percentile(counted, 95)) - powerToLufs(percentile(counted, 10));
}

/** What of `powers` is at or above a gate, at the start of `kept`, which may be `powers` itself. */
function notBelow(powers: Float64Array, gate: number, kept: Float64Array): Float64Array {
  let count = 0;
  for (let k = 0; k < powers.length; k++) if (powers[k] >= gate) kept[count++] = powers[k];
  return kept.subarray(0, count);
}
