import { powerToDb } from "../../sound/dsp/units.js";

/** From where on a listener notices, and who says so. */
export interface Threshold {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/**
 * Just noticeable step of level, dB: 10 log10(1 + 0.463 (I / I0)^-0.072), I / I0 above the threshold of hearing.
 * 0.69 dB at 60 dB above it, 0.50 dB at 80 dB.
 * Source: Jesteadt, Wier and Green 1977, Journal of the Acoustical Society of America 61, for tones heard one after the other.
 */
export const levelJndDb = (aboveThresholdDb: number): number =>
  powerToDb(1 + 0.463 * 10 ** ((-0.072 * aboveThresholdDb) / 10));

/** How loud a rehearsal is above the threshold of hearing, dB: common practice, no source. */
const playingLevelDb = 80;

export type FlagKind =
  | "level-jump"
  | "silence"
  | "width"
  | "correlation"
  | "comb"
  | "polarity"
  | "balance"
  | "side-delay";

export const thresholds = {
  "level-jump": {
    value: levelJndDb(playingLevelDb),
    unit: "LU",
    source: "Jesteadt, Wier and Green 1977, just noticeable step at 80 dB above the threshold of hearing",
  },
  silence: { value: 0, unit: "", source: "nothing sounds any more" },
  width: {
    value: 0.05,
    unit: "of the energy",
    source:
      "ISO 3382-1:2009 Table A.1, just noticeable difference of the early lateral energy fraction, by analogy",
  },
  correlation: {
    value: 0.075,
    unit: "",
    source: "ISO 3382-1:2009 Annex B, just noticeable difference of interaural cross-correlation, by analogy",
  },
  comb: {
    value: -18,
    unit: "dB",
    source:
      "Brunner, Maempel and Weinzierl 2007 (AES 122nd Convention), level of a late copy that listeners still tell, from memory; ripple of 2.2 dB by closed form",
  },
  polarity: {
    value: 0,
    unit: "",
    source: "common practice, no source: one side turned over cancels in mono",
  },
  balance: {
    value: 1,
    unit: "dB",
    source: "Breebaart and Faller 2007, Spatial Audio Processing, 3.5.1: 0.5 to 1 dB between the ears",
  },
  "side-delay": {
    value: 0.1,
    unit: "ms",
    source: "common practice, no source: delays between the ears span about 0.7 ms",
  },
} as const satisfies Record<FlagKind, Threshold>;
