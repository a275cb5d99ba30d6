import { powerToDb } from "../../sound/dsp/units.js";
import type { SideSweeps } from "./sideSweeps.js";
import type { SweepInverse } from "./sweepInverse.js";
import { signalOf } from "./sweepSpectrum.js";

/** How far the repeats differ from one another. */
export interface TimeVariance {
  /** Energy of a repeat's difference from the mean to the energy of the mean; null for repeats equal to the bit. */
  readonly differenceDb: number | null;
  /** What the recorded noise alone makes of that; null for digital silence. */
  readonly noiseDb: number | null;
}

/**
 * Compares the repeats: sum over repeats and frames of (h_r - mean)^2 / (repeats - 1), to the sum of mean^2, in the
 * frames that the response keeps.
 *
 * @returns null for a single sweep
 */
export function timeVarianceOf(
  side: SideSweeps,
  inverse: SweepInverse,
  from: number,
  to: number,
): TimeVariance | null {
  const { layout, fft } = inverse;
  const { repeats } = layout.settings;
  const { mean } = side;
  if (repeats === 1) return null;
  const energyOf = (signal: Float64Array): number => {
    let sum = 0;
    for (let n = from; n < to; n++) sum += signal[n < 0 ? n + fft.size : n] ** 2;
    return sum;
  };
  let difference = 0;
  for (let n = 0; n < repeats; n++) {
    const { re, im } = inverse.repeat(side.straight, n);
    for (let k = 0; k < re.length; k++) {
      re[k] -= mean.re[k];
      im[k] -= mean.im[k];
    }
    difference += energyOf(signalOf({ re, im }, fft));
  }
  const energy = energyOf(signalOf(mean, fft));
  const noise = side.noise.responsePower * (to - from);
  return {
    differenceDb: difference > 0 ? powerToDb(difference / (repeats - 1) / energy) : null,
    noiseDb: noise > 0 ? powerToDb(noise / energy) : null,
  };
}
