import { before, tapsPerPhase } from "../loops/peaks.js";

/** Kaiser window for about 70 dB of image rejection: flat up to 0.466 of the rate (20.5 kHz at 44.1 kHz). */
const kaiserBeta = 6.76;
/** Rate that true peak is read at, at the least; BS.1770-5, Annex 2. */
const leastRateHz = 192_000;
/** Takes below this rate get four points a frame even where fewer would reach 192 kHz. */
const fourfoldBelowHz = 96_000;

/** What gives the sound at one place between frame n and the next. */
export interface Phase {
  /** Place behind frame n, in frames, over 0 and under 1. */
  readonly fraction: number;
  /** Value = sum over j of taps[j] * x[n - before + j]. */
  readonly taps: Float64Array;
}

/**
 * Windowed-sinc interpolator of a rate: the places between two frames, for four points a frame at 48 kHz (the frame
 * itself is one), five at 44.1 kHz, two at 96 kHz; none from 192 kHz on. Each phase passes a constant unchanged.
 *
 * Source: ITU-R BS.1770-5 (2023), Annex 2, whose 12 taps a phase are an example that may be bettered; window: Kaiser
 * and Schafer, "On the use of the I0-sinh window for spectrum analysis", IEEE Trans. ASSP 28(1), 1980.
 */
export function peakInterpolator(rateHz: number): readonly Phase[] {
  const points = Math.max(rateHz < fourfoldBelowHz ? 4 : 1, Math.ceil(leastRateHz / rateHz));
  return Array.from({ length: points - 1 }, (_, p) => {
    const fraction = (p + 1) / points;
    return { fraction, taps: phaseTaps(fraction) };
  });
}

function phaseTaps(fraction: number): Float64Array {
  const taps = Float64Array.from({ length: tapsPerPhase }, (_, j) => {
    const t = fraction - (j - before);
    const u = t / (tapsPerPhase / 2);
    return (Math.sin(Math.PI * t) / (Math.PI * t)) * besselI0(kaiserBeta * Math.sqrt(Math.max(0, 1 - u * u)));
  });
  const sum = taps.reduce((total, tap) => total + tap, 0);
  return taps.map((tap) => tap / sum);
}

/** Modified Bessel function of the first kind, order 0, by its power series. */
function besselI0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
