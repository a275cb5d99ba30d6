import { powerToDb } from "../dsp/units.js";
import { numberMeasure } from "./numberMeasure.js";
import { type StereoEnergies, stereoEnergies } from "./stereoSums.js";
import { sideSilent } from "./why.js";

export const balanceMeasure = numberMeasure({
  id: "balanceDb",
  from: "sound",
  needs: ["whole"],
  value: ({ whole }) => balanceDbOf(whole),
  why: sideSilent,
  means: "10 log10(E(L) / E(R)), dB: positive leans left",
  source: "closed form",
  name: "balance, left to right",
  unit: "dB",
  heading: ["balance", "L-R dB"],
  format: { signed: 1 },
  better: null,
  tables: { compare: { fromColumns: 0 }, recordings: {}, page: { name: "balance", unit: "L to R, dB" } },
});

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
function balanceDbOf({ left, right }: Pick<StereoEnergies, "left" | "right">): number | null {
  return left + right > 0 ? powerToDb(left / right) : null;
}
