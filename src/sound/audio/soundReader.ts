import type { Block } from "../dsp/kernel.js";
import type { SoundKind } from "./soundKind.js";

/** A sound file opened for reading from start to end. */
export interface SoundReader {
  readonly kind: SoundKind;
  readonly rateHz: number;
  readonly channels: number;
  /** Whole frames that can be read. */
  readonly frames: number;
  /** Whole frames that the file says it has; null when it does not say. */
  readonly framesPromised: number | null;
  /** The largest positive sample of the coding: 1 - 2^(1-bits) for integers up to 16 bits. */
  readonly fullScale: number;
  /** The sound in order. The arrays of a piece are used again for the next. */
  pieces(): AsyncGenerator<SoundPiece>;
}
export interface SoundPiece {
  readonly block: Block;
  readonly frames: number;
}

/** The largest positive sample of an n-bit coding, 16 bits at most: longer ones are often made from 16-bit takes. */
export const fullScaleOf = (bits: number): number => 1 - 2 ** (1 - Math.min(bits, 16));
