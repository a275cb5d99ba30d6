/**
 * What is measured of one stereo render. Every field is `null` where the measure is undefined; `reasons` then says
 * why, by field name. Definitions stand in the file that computes each.
 */
export interface Measures {
  readonly correlation: number | null;
  readonly correlationOverTime: CorrelationOverTime | null;
  readonly iacc: number | null;
  readonly sideShare: number | null;
  readonly sideToMidDb: number | null;
  /** sideShare over that of the reference routing. */
  readonly widthKept: number | null;
  readonly balanceDb: number | null;
  readonly foldDownLossDb: number | null;
  /** Octave band that loses most when folded to mono. */
  readonly worstFoldDownHz: number | null;
  readonly integratedLufs: number | null;
  readonly shortTermMaxLufs: number | null;
  readonly momentaryMaxLufs: number | null;
  readonly loudnessRangeLu: number | null;
  readonly truePeakDbtp: number | null;
  readonly samplePeakDbfs: number | null;
  readonly centroidHz: number | null;
  readonly tiltDbPerOctave: number | null;
  /** Octaves, ISO 266 / IEC 61260-1. */
  readonly bands: readonly BandMeasures[];
  /** Third octaves. */
  readonly thirds: readonly ThirdMeasures[];
  readonly decay: Decay | null;
  readonly wetToDryDb: number | null;
  readonly comb: Comb | null;
  readonly reasons: Readonly<Record<string, string>>;
}

export interface CorrelationOverTime {
  readonly median: number;
  readonly percentile5: number;
  readonly shareBelowZero: number;
  /** One value a window of 400 ms, every 100 ms; null in windows over 60 dB below the loudest. For plots. */
  readonly values: readonly (number | null)[];
  readonly hopSeconds: number;
}

export interface BandMeasures {
  /** Nominal centre. */
  readonly centreHz: number;
  /** Mean power of the two channels in the band, dB re a full-scale square (1.0). */
  readonly levelDb: number | null;
  readonly correlation: number | null;
  readonly sideShare: number | null;
  readonly foldDownLossDb: number | null;
  /** levelDb less that of the dry take; both matched to one overall loudness. */
  readonly toDryDb: number | null;
  /** levelDb less that of the reference routing, likewise. */
  readonly toReferenceDb: number | null;
}

export interface ThirdMeasures {
  readonly centreHz: number;
  readonly levelDb: number | null;
  readonly toDryDb: number | null;
  readonly toReferenceDb: number | null;
}

export interface Decay {
  readonly edtSeconds: number | null;
  readonly t20Seconds: number | null;
  readonly t30Seconds: number | null;
  /** Schroeder curve, dB re its start, every `stepSeconds`. For plots. */
  readonly curveDb: readonly number[];
  readonly stepSeconds: number;
}

export interface Comb {
  /** The late copy behind the first. */
  readonly delayMs: number;
  /** Its level to the first copy's; negative polarity is told by `inverted`. */
  readonly levelDb: number;
  readonly inverted: boolean;
  readonly side: "left" | "right" | "both";
  /** The first notches, Hz. */
  readonly notchesHz: readonly number[];
}
