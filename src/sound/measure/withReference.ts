import type { Measures } from "./measures.js";

/** What a render is compared with; null where there is none. */
export interface References {
  /** Of the reference routing. */
  readonly reference: Measures | null;
  /** Of the dry take. */
  readonly dry: Measures | null;
}

/**
 * Fills the fields that compare: `widthKept` is side share over the reference's; a band's `toDryDb` and
 * `toReferenceDb` are differences of level with both at one integrated loudness, that is
 * (level - loudness) - (other level - other loudness).
 */
export function withReference(measures: Measures, { reference, dry }: References): Measures {
  const widthKept = widthKeptOf(measures, reference);
  const compare = <T extends Leveled>(band: T, key: "bands" | "thirds", k: number) => ({
    ...band,
    toDryDb: differenceDb(band, measures, dry?.[key][k], dry),
    toReferenceDb: differenceDb(band, measures, reference?.[key][k], reference),
  });
  return {
    ...measures,
    widthKept,
    bands: measures.bands.map((band, k) => compare(band, "bands", k)),
    thirds: measures.thirds.map((third, k) => compare(third, "thirds", k)),
    reasons: reasonsWith(measures, widthKept, { reference, dry }),
  };
}

interface Leveled {
  readonly levelDb: number | null;
}

function widthKeptOf({ sideShare }: Measures, reference: Measures | null): number | null {
  if (sideShare === null || reference === null || reference.sideShare === null) return null;
  return reference.sideShare > 0 ? sideShare / reference.sideShare : null;
}

function differenceDb(
  band: Leveled,
  measures: Measures,
  otherBand: Leveled | undefined,
  other: Measures | null,
): number | null {
  const here = relativeDb(band, measures);
  const there = otherBand === undefined || other === null ? null : relativeDb(otherBand, other);
  return here === null || there === null ? null : here - there;
}

const relativeDb = ({ levelDb }: Leveled, { integratedLufs }: Measures): number | null =>
  levelDb === null || integratedLufs === null ? null : levelDb - integratedLufs;

function reasonsWith(measures: Measures, widthKept: number | null, { reference, dry }: References) {
  const reasons = { ...measures.reasons };
  if (widthKept !== null) delete reasons.widthKept;
  else if (reference !== null)
    reasons.widthKept = "the reference has no side, or there is no sound to compare";
  for (const key of ["bands", "thirds"]) {
    noteDifference(reasons, `${key}.toDryDb`, measures, dry);
    noteDifference(reasons, `${key}.toReferenceDb`, measures, reference);
  }
  return reasons;
}

/** Says why differences are missing; single bands without a level have their reason at `levelDb`. */
function noteDifference(
  reasons: Record<string, string>,
  field: string,
  measures: Measures,
  other: Measures | null,
) {
  if (other === null) return;
  if (measures.integratedLufs === null || other.integratedLufs === null) {
    reasons[field] = "without loudness on both sides, levels cannot be matched";
  } else delete reasons[field];
}
