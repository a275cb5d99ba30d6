import { settleBeyondBand, withEdgeGains } from "./beyondBand.js";
import type { SideSweeps } from "./sideSweeps.js";
import type { SweepInverse } from "./sweepInverse.js";
import { advanced, signalOf } from "./sweepSpectrum.js";
import type { ToneLayout } from "./toneLayout.js";
import { headStartOf, tailEndOf } from "./trim.js";

/** The part of a side's response that is kept. */
export interface ResponsePiece {
  /** Circular, settled beyond the band, the earliest side's first arrival on frame 0. */
  readonly filled: Float64Array;
  readonly from: number;
  readonly to: number;
  readonly cut: boolean;
}

/** @param first the earliest side's first arrival, frames after the clock's; it becomes frame 0 */
export function pieceOf(side: SideSweeps, first: number, inverse: SweepInverse): ResponsePiece {
  const { layout, fft } = inverse;
  const { rateHz, repeats } = layout.settings;
  const known = advanced(side.spectrum, first);
  const rough = withEdgeGains(known, inverse, side.onset.frames - first);
  const noisePower = side.noise.responsePower / repeats;
  const roughly = signalOf(rough, fft);
  const { to, cut } = tailEndOf(roughly, measuredFrames(layout, first), noisePower, rateHz);
  const least = Math.min(0, Math.floor(side.onset.startFrame - first)) - ringFrames;
  const filled = signalOf(settleBeyondBand(rough, inverse, least, to), fft);
  return { filled, from: headStartOf(filled, least, to, noisePower), to, cut };
}

/** Frames ahead of its sound in which a response may already move: filters ring ahead so much. */
const ringFrames = 64;

/** Frames after the first arrival in which nothing but the response sounds: until the next mark. */
export const measuredFrames = ({ gapFrames }: ToneLayout, first: number): number =>
  gapFrames - Math.ceil(Math.max(0, first));

/** Frames `from` to `to` of a circular response, faded out over the last 5 ms. */
export function cutOut(filled: Float64Array, from: number, to: number, rateHz: number): Float32Array {
  const fade = Math.min(to - from, Math.round(fadeOutSeconds * rateHz));
  return Float32Array.from({ length: to - from }, (_, n) => {
    const left = Math.min(1, (to - from - n) / fade);
    return (
      filled[from + n < 0 ? from + n + filled.length : from + n] * (0.5 - 0.5 * Math.cos(Math.PI * left))
    );
  });
}

const fadeOutSeconds = 0.005;
