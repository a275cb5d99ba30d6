import type { LoudnessPowers } from "./loudness.js";
import type { SpectrumFacts } from "./spectrumFacts.js";
import type { StereoEnergies } from "./stereoSums.js";
import type { WindowEnergies } from "./windowEnergies.js";

/**
 * What measures are read from, part by part: sums over a stereo sound. A meter takes them from samples, a sweep from
 * the products of the stems that it mixes; the measures cannot tell which.
 */
export interface SoundFacts {
  /** Over the whole sound. */
  readonly whole: StereoEnergies;
  /** In windows of 400 ms, one every 100 ms. */
  readonly windows: WindowEnergies;
  readonly loudness: LoudnessPowers;
  readonly spectrum: SpectrumFacts;
  /** Of the louder side. */
  readonly peaks: Peaks;
  /** The peaks are no higher. */
  readonly peaksAtMost: Peaks;
}

/** What the rig that made a sound adds. */
export interface RigFacts {
  /** To one full-scale frame. */
  readonly response: ImpulseResponse;
  /** At both buses; null when the wiring holds no mono unit. */
  readonly wetAndDry: WetAndDry | null;
  /** Null when no late copy of the dry signal meets it. */
  readonly comb: Comb | null;
}

/** Factors, 1 is full scale. */
export interface Peaks {
  readonly samplePeak: number;
  readonly truePeak: number;
}

export interface ImpulseResponse {
  readonly channels: readonly Float32Array[];
  readonly rateHz: number;
}

/** Where a late copy of the dry signal meets it. */
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

/** Energies. */
export interface WetAndDry {
  readonly wet: number;
  readonly dry: number;
}

/** In the order in which a report has what they tell. */
export const rigParts = ["response", "wetAndDry", "comb"] as const satisfies readonly (keyof RigFacts)[];

export interface Facts extends SoundFacts, RigFacts {}
export type SoundPart = keyof SoundFacts;
export type Part = keyof Facts;

/**
 * Which parts of a mix follow from the products of its stems. Whatever needs another part takes the mix as sound, and
 * a sweep renders it for no more than its best settings.
 */
export const followsFromStems = {
  whole: true,
  windows: true,
  loudness: true,
  spectrum: true,
  peaks: false,
  peaksAtMost: true,
  response: false,
  wetAndDry: true,
  comb: true,
} as const satisfies Record<Part, boolean>;

type PartsThat<Follow extends boolean> = {
  [P in Part]: (typeof followsFromStems)[P] extends Follow ? P : never;
}[Part];
export type StemPart = PartsThat<true>;
export type RenderedPart = PartsThat<false>;

/** Always known. */
export interface Length {
  readonly rateHz: number;
  readonly frames: number;
}
/** Some parts, and the length. */
export type Known = Length & { readonly [P in Part]?: Facts[P] | undefined };
export type Given<P extends Part> = Length & Pick<Facts, P>;

export const isGiven = <P extends Part>(facts: Known, needs: readonly P[]): facts is Known & Given<P> =>
  needs.every((part) => facts[part] !== undefined);
