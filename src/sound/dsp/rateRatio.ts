import { besselI0 } from "./besselI0.js";

/** A change of rate: one sample there for `steps / parts` frames here, and the low-pass between the two. */
export interface RateRatio {
  readonly steps: number;
  readonly parts: number;
  /** Half the length of the low-pass. */
  readonly halfFrames: number;
  /** The low-pass, of unit gain with taps a frame apart. @param frames distance from its middle */
  lowPass(frames: number): number;
}

const stopbandDb = 50;

/**
 * A rate of one sample for `steps / parts` frames with a Kaiser-windowed sinc for low-pass: flat up to `passband`,
 * 50 dB down from `stopband` on, both in cycles per frame.
 * Source: J. F. Kaiser, "Nonrecursive digital filter design using the I0-sinh window function", 1974: shape
 * 0.1102 (A - 8.7) and length (A - 7.95) / (2.285 * 2 pi * width) for an attenuation of A dB (50 and more).
 */
export function rateRatio(ratio: {
  readonly steps: number;
  readonly parts: number;
  readonly passband: number;
  readonly stopband: number;
}): RateRatio {
  const { steps, parts, passband, stopband } = ratio;
  const shape = 0.1102 * (stopbandDb - 8.7);
  const halfFrames = (stopbandDb - 7.95) / (2.285 * 2 * Math.PI * (stopband - passband)) / 2;
  const cutoff = (passband + stopband) / 2;
  const lowPass = (frames: number): number => {
    const place = frames / halfFrames;
    if (Math.abs(place) >= 1) return 0;
    const x = 2 * cutoff * frames;
    const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    return (2 * cutoff * sinc * besselI0(shape * Math.sqrt(1 - place * place))) / besselI0(shape);
  };
  return { steps, parts, halfFrames, lowPass };
}
