import type { BandDifferences, LevelledBand } from "./band.js";
import { needsReference } from "./comparedMeasure.js";
import type { Found, Reasons, References } from "./measure.js";

export const differences = ["toDryDb", "toReferenceDb"] as const satisfies readonly (keyof BandDifferences)[];

/** What is compared, by the id of its bands. */
export type Compared<Id extends string, Value> = Readonly<Record<Id, readonly Value[]>> & Loud;
interface Loud {
  readonly integratedLufs: number | null;
}

/** Adds the differences to the bands of one id. */
export const compareBands =
  <Id extends string, Value extends LevelledBand>(id: Id) =>
  (
    own: Compared<Id, Value>,
    { reference, dry }: References<Compared<Id, Value>>,
  ): Found<readonly (Value & BandDifferences)[]> => ({
    value: own[id].map((band, k) => ({
      ...band,
      toDryDb: differenceDb(band, own, dry?.[id][k], dry),
      toReferenceDb: differenceDb(band, own, reference?.[id][k], reference),
    })),
    reasons: {
      ...whyNone(`${id}.toDryDb`, own, dry),
      ...whyNone(`${id}.toReferenceDb`, own, reference),
    },
  });

function differenceDb(
  band: LevelledBand,
  sound: Loud,
  otherBand: LevelledBand | undefined,
  other: Loud | null,
): number | null {
  const here = relativeDb(band, sound);
  const there = otherBand === undefined || other === null ? null : relativeDb(otherBand, other);
  return here === null || there === null ? null : here - there;
}

const relativeDb = ({ levelDb }: LevelledBand, { integratedLufs }: Loud): number | null =>
  levelDb === null || integratedLufs === null ? null : levelDb - integratedLufs;

/** Single bands without a level have their reason at `levelDb`. */
function whyNone(field: string, own: Loud, other: Loud | null): Reasons {
  if (other === null) return { [field]: needsReference };
  const isLoud = own.integratedLufs !== null && other.integratedLufs !== null;
  return isLoud ? {} : { [field]: "without loudness on both sides, levels cannot be matched" };
}
