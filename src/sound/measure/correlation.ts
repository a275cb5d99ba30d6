import { numberMeasure } from "./numberMeasure.js";
import { type StereoEnergies, stereoEnergies } from "./stereoSums.js";
import { sideSilent } from "./why.js";

export const correlationMeasure = numberMeasure({
  id: "correlation",
  from: "sound",
  needs: ["whole"],
  value: ({ whole }) => correlationOf(whole),
  why: sideSilent,
  means: "sum(L*R) / sqrt(E(L) E(R)) at zero lag, no mean removed: 1 mono, 0 unrelated, -1 opposite polarity",
  source: "the Pearson coefficient about zero",
  name: "correlation",
  unit: "\u22121 to 1",
  heading: ["corr.", "-1..1"],
  format: { fixed: 2 },
  better: null,
  tables: { compare: { fromColumns: 0 }, recordings: {}, page: {} },
});

/**
 * Likeness of two channels at zero lag, no mean removed: sum(L*R) / sqrt(sum(L*L) * sum(R*R)).
 *
 * @param left   samples, full scale 1, any length
 * @param right  samples, as many as `left`
 * @returns 1 mono, 0 unrelated, -1 opposite polarity; null when either channel is silent
 * @throws RangeError when the lengths differ
 * Source: the Pearson coefficient about zero; within -1..1 by the Cauchy-Schwarz inequality.
 */
export function correlation(left: Float32Array, right: Float32Array): number | null {
  return correlationOf(stereoEnergies(left, right));
}

/** The same from energies that are summed already: of a take, a window or a frequency band. */
export const correlationOf = ({ left, right, cross }: Pick<StereoEnergies, "left" | "right" | "cross">) =>
  coefficient(left, right, cross);

/** cross / sqrt(left * right), for loops that have no object to spare. */
export function coefficient(left: number, right: number, cross: number): number | null {
  // The root of a square is exact, so equal channels give 1 and not nearly 1.
  const norm = Math.sqrt(left * right);
  return norm > 0 ? Math.max(-1, Math.min(1, cross / norm)) : null;
}
