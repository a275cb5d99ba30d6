import type { BiquadCoefficients } from "./biquad.js";
import { dbToGain } from "./units.js";

/**
 * Second-order filters by the bilinear transform: low-pass, high-pass, band-pass (0 dB at its centre), notch, all-pass,
 * peaking and shelves. Corners must lie between 0 and half the sample rate; they are held to 0.49 of it, so that a
 * setting meant for 48 kHz stays usable on a take of 8 kHz.
 * Source: R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter coefficients"; the W3C Web Audio
 * BiquadFilterNode uses the same formulas (its shelves with slope 1, its low- and high-pass with Q in dB).
 */
export interface Corner {
  readonly cutoffHz: number;
  readonly rateHz: number;
  /** 1/sqrt(2) (the default) is maximally flat for low- and high-pass. */
  readonly q?: number;
}

export function lowPass(corner: Corner): BiquadCoefficients {
  const { cosine, alpha } = angles(corner);
  const b = (1 - cosine) / 2;
  return scaled(b, 2 * b, b, 1 + alpha, -2 * cosine, 1 - alpha);
}

export function highPass(corner: Corner): BiquadCoefficients {
  const { cosine, alpha } = angles(corner);
  const b = (1 + cosine) / 2;
  return scaled(b, -2 * b, b, 1 + alpha, -2 * cosine, 1 - alpha);
}

export function bandPass(corner: Corner): BiquadCoefficients {
  const { cosine, alpha } = angles(corner);
  return scaled(alpha, 0, -alpha, 1 + alpha, -2 * cosine, 1 - alpha);
}

export function notch(corner: Corner): BiquadCoefficients {
  const { cosine, alpha } = angles(corner);
  return scaled(1, -2 * cosine, 1, 1 + alpha, -2 * cosine, 1 - alpha);
}

export function allPass(corner: Corner): BiquadCoefficients {
  const { cosine, alpha } = angles(corner);
  return scaled(1 - alpha, -2 * cosine, 1 + alpha, 1 + alpha, -2 * cosine, 1 - alpha);
}

/** Bell of `gainDb` at the centre. */
export function peaking(corner: Corner & { readonly gainDb: number }): BiquadCoefficients {
  const { cosine, alpha } = angles(corner);
  const a = dbToGain(corner.gainDb / 2);
  return scaled(1 + alpha * a, -2 * cosine, 1 - alpha * a, 1 + alpha / a, -2 * cosine, 1 - alpha / a);
}

/** `gainDb` far below the corner, 0 dB far above, half of it (in dB) at the corner. */
export function lowShelf(shelf: Shelf): BiquadCoefficients {
  const { a, cosine, root } = shelfAngles(shelf);
  return scaled(
    a * (a + 1 - (a - 1) * cosine + root),
    2 * a * (a - 1 - (a + 1) * cosine),
    a * (a + 1 - (a - 1) * cosine - root),
    a + 1 + (a - 1) * cosine + root,
    -2 * (a - 1 + (a + 1) * cosine),
    a + 1 + (a - 1) * cosine - root,
  );
}

/** `gainDb` far above the corner, 0 dB far below, half of it (in dB) at the corner. */
export function highShelf(shelf: Shelf): BiquadCoefficients {
  const { a, cosine, root } = shelfAngles(shelf);
  return scaled(
    a * (a + 1 + (a - 1) * cosine + root),
    -2 * a * (a - 1 + (a + 1) * cosine),
    a * (a + 1 + (a - 1) * cosine - root),
    a + 1 - (a - 1) * cosine + root,
    2 * (a - 1 - (a + 1) * cosine),
    a + 1 - (a - 1) * cosine - root,
  );
}

export interface Shelf {
  readonly cutoffHz: number;
  readonly rateHz: number;
  readonly gainDb: number;
  /** 1 (the default) is the steepest that does not overshoot. */
  readonly slope?: number;
}

const held = (cutoffHz: number, rateHz: number): number =>
  (2 * Math.PI * Math.min(cutoffHz, 0.49 * rateHz)) / rateHz;

function angles({ cutoffHz, rateHz, q = Math.SQRT1_2 }: Corner): { cosine: number; alpha: number } {
  const omega = held(cutoffHz, rateHz);
  return { cosine: Math.cos(omega), alpha: Math.sin(omega) / (2 * q) };
}

function shelfAngles({ cutoffHz, rateHz, gainDb, slope = 1 }: Shelf) {
  const omega = held(cutoffHz, rateHz);
  const a = dbToGain(gainDb / 2);
  const alpha = (Math.sin(omega) / 2) * Math.sqrt((a + 1 / a) * (1 / slope - 1) + 2);
  return { a, cosine: Math.cos(omega), root: 2 * Math.sqrt(a) * alpha };
}

function scaled(b0: number, b1: number, b2: number, a0: number, a1: number, a2: number): BiquadCoefficients {
  return { b0: b0 / a0, b1: b1 / a0, b2: b2 / a0, a1: a1 / a0, a2: a2 / a0 };
}

/** |H| at one frequency, in dB: what the section does to a steady tone. */
export function biquadGainDb({ b0, b1, b2, a1, a2 }: BiquadCoefficients, hz: number, rateHz: number): number {
  const omega = (2 * Math.PI * hz) / rateHz;
  const [c1, c2, s1, s2] = [Math.cos(omega), Math.cos(2 * omega), Math.sin(omega), Math.sin(2 * omega)];
  const over = (b0 + b1 * c1 + b2 * c2) ** 2 + (b1 * s1 + b2 * s2) ** 2;
  const under = (1 + a1 * c1 + a2 * c2) ** 2 + (a1 * s1 + a2 * s2) ** 2;
  return 10 * Math.log10(over / under);
}
