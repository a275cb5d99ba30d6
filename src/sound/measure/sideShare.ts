import { powerToDb } from "../dsp/units.js";
import { numberMeasure } from "./numberMeasure.js";
import { type StereoEnergies, stereoEnergies } from "./stereoSums.js";
import { sideSilent } from "./why.js";

export const sideShareMeasure = numberMeasure({
  id: "sideShare",
  from: "sound",
  needs: ["whole"],
  value: ({ whole }) => sideShareOf(whole),
  why: sideSilent,
  means: "E(S) / (E(M) + E(S)), M = (L+R)/sqrt2, S = (L-R)/sqrt2: 0 mono, 0.5 unrelated, 1 opposite polarity",
  source: "closed form",
  name: "side share",
  unit: "% of the energy",
  heading: ["side", "%"],
  format: "percent",
  better: "more",
  tables: { compare: { fromColumns: 0 }, recordings: {}, page: { name: "side", unit: "%" } },
});

export const sideToMidMeasure = numberMeasure({
  id: "sideToMidDb",
  from: "sound",
  needs: ["whole"],
  value: ({ whole }) => sideToMidDbOf(whole),
  why: ({ whole }) => (whole.side > 0 ? "there is no middle" : "there is no side: mono"),
  means: "10 log10(E(S) / E(M)), dB",
  source: "closed form",
  name: "side to mid",
  unit: "dB",
  format: { fixed: 1 },
  better: "more",
  tables: {},
});

/**
 * Share of the energy that is side: E(S) / (E(M) + E(S)), M = (L+R)/sqrt2, S = (L-R)/sqrt2.
 *
 * @param left   samples, full scale 1, any length
 * @param right  samples, as many as `left`
 * @returns 0 mono, 0.5 unrelated at equal level, 1 opposite polarity; null when both channels are silent
 * @throws RangeError when the lengths differ
 * Source: closed form; E(M) + E(S) = E(L) + E(R), and at equal energies it is (1 - correlation) / 2.
 */
export function sideShare(left: Float32Array, right: Float32Array): number | null {
  return sideShareOf(stereoEnergies(left, right));
}

/** The same from energies. */
function sideShareOf({ mid, side }: Pick<StereoEnergies, "mid" | "side">): number | null {
  return mid + side > 0 ? side / (mid + side) : null;
}

/**
 * Side to middle: 10 log10(E(S) / E(M)), in dB.
 *
 * @returns -Infinity for mono, Infinity for opposite polarity; null when both channels are silent
 * @throws RangeError when the lengths differ
 */
export function sideToMidDb(left: Float32Array, right: Float32Array): number | null {
  return sideToMidDbOf(stereoEnergies(left, right));
}

/** The same from energies. */
function sideToMidDbOf({ mid, side }: Pick<StereoEnergies, "mid" | "side">): number | null {
  return mid + side > 0 ? powerToDb(side / mid) : null;
}
