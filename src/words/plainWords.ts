import type { NumberId } from "../sound/measure/measures.js";

/** Words of the trade that name no measure. */
type TradeWord =
  | "belowZero"
  | "decibelsFs"
  | "edt"
  | "extraBoxes"
  | "levelJump"
  | "match"
  | "median"
  | "percentile5"
  | "price"
  | "reverberation";

/** What the words of the trade say to who plays; it stands beside them in the page. Measures by their ids. */
export const plainWords = {
  correlation: "how alike left and right are; 1 is mono",
  sideShare: "how wide: what differs between left and right",
  sideToMidDb: "what differs between the sides, to what they share",
  widthKept: "how wide, to the reference",
  balanceDb: "which side is louder; + is the left",
  foldDownLossDb: "what goes where both sides are summed",
  iacc: "how alike the sides are to two ears",
  integratedLufs: "how loud over the whole take",
  truePeakDbtp: "the highest peak; over 0 it clips",
  centroidHz: "how bright: the middle of the tone",
  wetToDryDb: "how much effect to the dry sound",
  belowZero: "time in which the sides work against each other",
  decibelsFs: "how far the two are apart; 0 is full scale",
  edt: "how fast it dies at first",
  extraBoxes: "beyond the pedals of the rig",
  levelJump: "how much louder or softer; 1 LU is 1 dB",
  match: "turned up or down to one loudness",
  median: "half of the time above, half below",
  percentile5: "lower only for a twentieth of the time",
  price: "of what is not in a drawer yet",
  reverberation: "how long it rings",
} as const satisfies Partial<Record<NumberId | TradeWord, string>>;

/** Of a measure; none where its name is plain. */
export const plainWordsOf = (measure: string): string | undefined =>
  Object.hasOwn(plainWords, measure) ? plainWords[measure as keyof typeof plainWords] : undefined;
