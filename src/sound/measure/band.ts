export interface LevelledBand {
  /** Nominal centre. */
  readonly centreHz: number;
  readonly levelDb: number | null;
}

/** BandDifferences of level, both sounds at one overall loudness: (level - loudness) - (other level - other loudness). */
export interface BandDifferences {
  readonly toDryDb: number | null;
  readonly toReferenceDb: number | null;
}

/** A band as its sound gives it. */
export interface OctaveBand extends LevelledBand {
  /** Mean power of the two channels in the band, dB re a full-scale square (1.0). */
  readonly levelDb: number | null;
  readonly correlation: number | null;
  readonly sideShare: number | null;
  readonly foldDownLossDb: number | null;
}
