import { harmonicAheadFrames } from "./harmonics.js";
import { type Onset, onsetOf } from "./onset.js";
import type { SweepInverse } from "./sweepInverse.js";
import type { Spectrum } from "./sweepSpectrum.js";

/** Mean of what the repeats of a straightened recording give. */
export function meanSpectrum(straight: Float64Array, inverse: SweepInverse): Spectrum {
  const { repeats } = inverse.layout.settings;
  const mean = inverse.repeat(straight, 0);
  for (let n = 1; n < repeats; n++) {
    const { re, im } = inverse.repeat(straight, n);
    for (let k = 0; k < re.length; k++) {
      mean.re[k] += re[k];
      mean.im[k] += im[k];
    }
  }
  for (let k = 0; k < mean.re.length; k++) {
    mean.re[k] /= repeats;
    mean.im[k] /= repeats;
  }
  return mean;
}

/** The first arrival, looked for after the place of the second order and before the next mark. `noisePower`: of each frame. */
export function firstArrival(
  response: Float64Array,
  noisePower: number,
  { layout, leadFrames }: SweepInverse,
): Onset {
  const least = -Math.min(leadFrames, Math.floor(harmonicAheadFrames(layout, 2) / 2));
  return onsetOf(response, least, layout.gapFrames, Math.sqrt(noisePower), layout.settings.rateHz);
}
