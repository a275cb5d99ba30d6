import type { CaptureFacts } from "./captureFacts.js";

/** Repeats that differ by more than this belong to a unit that moves; common practice, no source. */
const movingDb = -40;
/** Products above this, 1 %, belong to a unit that is driven; common practice, no source. */
const drivenDb = -40;
/** A soft mark may gain this much more or less than the sweep; common practice, no source. */
const unevenDb = 0.5;
/** Repeats that differ by less than this are no reason for a mark that is treated otherwise; common practice, no source. */
const hardlyMovingDb = -25;
const limitedDb = 3;
const straightLikeness = 0.98;
/** A mark may differ by this much from what the response foretells; common practice, no source. */
const unlikeDb = -20;
/** A difference counts when it stands this far over what the noise makes. */
const overNoiseDb = 6;

/** Why a response cannot stand for the unit: plain sentences, none when it can. */
export function reasonsAgainst(
  facts: Pick<CaptureFacts, "timeVariance" | "distortionDb" | "levelCheck">,
): string[] {
  const { timeVariance, distortionDb, levelCheck } = facts;
  const reasons: string[] = [];
  const difference = timeVariance?.differenceDb ?? Number.NEGATIVE_INFINITY;
  const moves =
    difference > Math.max(movingDb, (timeVariance?.noiseDb ?? Number.NEGATIVE_INFINITY) + overNoiseDb);
  // What moves treats a mark otherwise than a sweep as well, and bends it; a limiter's repeats differ a little, by where
  // its gain stood, and its mark is only louder.
  const { gainDb, likeness } = levelCheck;
  const isUneven = moves
    ? difference < hardlyMovingDb && Math.abs(gainDb) > limitedDb && likeness > straightLikeness
    : Math.abs(gainDb) > unevenDb;
  if (moves && !isUneven) {
    reasons.push(
      `The repeats differ by ${difference.toFixed(0)} dB: the unit moves (chorus, vibrato, tremolo, a modulated tail). A response is one still moment of it and cannot stand for the unit; stop or freeze its modulation, or use a model.`,
    );
  }
  if (distortionDb !== null && isDriven(distortionDb)) {
    reasons.push(
      `Distortion is ${distortionDb.toFixed(0)} dB at this level: the unit is driven. A response holds the linear part alone and cannot stand for the unit; turn level or drive down, or use a model.`,
    );
  }
  if (isUneven) {
    reasons.push(
      `A mark 12 dB softer than the sweep gains ${signed(levelCheck.gainDb)} dB against it: the unit treats loud and soft differently, ${levelCheck.gainDb > 0 ? "holding the loud down (compressor, limiter, drive)" : "holding the soft down (gate, expander)"}. A response cannot stand for it; switch that off, or use a model.`,
    );
  } else if (levelCheck.differenceDb !== null && levelCheck.differenceDb > unlikeDb && !moves) {
    reasons.push(
      `A short mark comes back ${levelCheck.differenceDb.toFixed(0)} dB unlike what the response foretells: the unit moves, or gates its tail. A response cannot stand for it.`,
    );
  }
  return reasons;
}

export const isDriven = (distortionDb: number | null): boolean =>
  distortionDb !== null && distortionDb > drivenDb;

const signed = (db: number): string => `${db > 0 ? "+" : ""}${db.toFixed(1)}`;
