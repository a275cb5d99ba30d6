import { balanceMeasure } from "./balance.js";
import { octavesMeasure, thirdsMeasure } from "./bands.js";
import { centroidMeasure } from "./centroid.js";
import { combMeasure } from "./comb.js";
import { correlationMeasure } from "./correlation.js";
import { correlationOverTimeMeasure } from "./correlationOverTime.js";
import { decayMeasure } from "./decay.js";
import { rigParts } from "./facts.js";
import { foldDownMeasure } from "./foldDown.js";
import { iaccMeasure } from "./iacc.js";
import { integratedLufsMeasure, momentaryMaxMeasure, shortTermMaxMeasure } from "./loudnessMeasures.js";
import { loudnessRangeMeasure } from "./loudnessRange.js";
import type { Explained, Found, Giver } from "./measure.js";
import { samplePeakMeasure, truePeakMeasure } from "./peakMeasures.js";
import { sideShareMeasure, sideToMidMeasure } from "./sideShare.js";
import { tiltMeasure } from "./tilt.js";
import { wetToDryMeasure } from "./wetToDry.js";
import { widthKeptMeasure } from "./widthKept.js";
import { worstFoldDownMeasure } from "./worstFoldDown.js";

/**
 * Every measure there is, in the order of tables. Whatever shows, stores, ranks or explains measures reads this list,
 * and the types below come from it.
 */
export const measures = [
  correlationMeasure,
  correlationOverTimeMeasure,
  iaccMeasure,
  sideShareMeasure,
  sideToMidMeasure,
  widthKeptMeasure,
  balanceMeasure,
  foldDownMeasure,
  worstFoldDownMeasure,
  integratedLufsMeasure,
  shortTermMaxMeasure,
  momentaryMaxMeasure,
  loudnessRangeMeasure,
  truePeakMeasure,
  samplePeakMeasure,
  centroidMeasure,
  tiltMeasure,
  wetToDryMeasure,
  decayMeasure,
  combMeasure,
  octavesMeasure,
  thirdsMeasure,
] as const;

export type AnyMeasure = (typeof measures)[number];
export type MeasureFrom<From extends Giver> = Extract<AnyMeasure, { readonly from: From }>;
/** What is found of measures, by their ids. */
export type Values<M extends AnyMeasure> = {
  readonly [One in M as One["id"]]: ReturnType<One["find"]>["value"];
};
/** The same once it has been compared. */
type Compared<M extends AnyMeasure> = {
  readonly [One in M as One["id"]]: One extends {
    readonly compare: (...sounds: never[]) => Found<infer Value>;
  }
    ? Value
    : ReturnType<One["find"]>["value"];
};

const isFrom =
  <From extends Giver>(from: From) =>
  (measure: AnyMeasure): measure is MeasureFrom<From> =>
    measure.from === from;
export const ofSound = measures.filter(isFrom("sound"));
/** In the order of a report. */
export const ofRig = rigParts.flatMap((part) =>
  measures
    .filter(isFrom("rig"))
    .filter(({ needs }) => rigParts.find((each) => needs.includes(each)) === part),
);

type NumberMeasure = Extract<AnyMeasure, { readonly shape: "number" }>;
/** Those that are one number. */
export const numberMeasures = measures.filter(
  (measure): measure is NumberMeasure => measure.shape === "number",
);
export type NumberId = NumberMeasure["id"];

/** What each measure is, with its source. */
export const glossary: readonly (Explained & { readonly id: string })[] = measures.map(
  ({ id, means, source }) => ({ id, means, source }),
);

/** Of a sound by itself; null where a measure is undefined, and `reasons` then says why, by field. */
export interface SoundMeasures extends Values<MeasureFrom<"sound">> {
  readonly reasons: Readonly<Record<string, string>>;
}

/** What the rig that made a sound adds, likewise. */
export interface RigMeasures extends Values<MeasureFrom<"rig">> {
  readonly reasons: Readonly<Record<string, string>>;
}

/** Both, compared with other sounds: what a report has. */
export interface Measures extends Compared<AnyMeasure> {
  readonly reasons: Readonly<Record<string, string>>;
}
