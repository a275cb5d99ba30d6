import type { Clock } from "./clock.js";
import { readStretched } from "./fractionalRead.js";
import type { Side } from "./recordedSides.js";
import type { SweepInverse } from "./sweepInverse.js";
import { firstArrival, meanSpectrum } from "./sweepRepeats.js";
import { emptySpectrum, type Spectrum, signalOf, spectrumOf } from "./sweepSpectrum.js";

/** What of the reference counts, before and after its first arrival: a cable and converters are short. */
const beforeSeconds = 0.02;
const afterSeconds = 0.3;
/** Where the reference is weaker than this to its mean power, nothing is divided by it. */
const leastPower = 1e-6;

/** The response of the loop without the unit, from the side of the recording that holds a plain cable. */
export function referenceSpectrum(side: Side, clock: Clock, inverse: SweepInverse): Spectrum {
  const { layout, fft } = inverse;
  const { rateHz, gapSeconds } = layout.settings;
  const straight = readStretched(side.samples, clock.origin, clock.stretch, layout.frames);
  const response = signalOf(meanSpectrum(straight, inverse), fft);
  const onset = Math.round(firstArrival(response, 0, inverse).frames);
  const from = onset - Math.round(beforeSeconds * rateHz);
  const to = onset + Math.round(Math.min(afterSeconds, gapSeconds) * rateHz);
  const kept = new Float64Array(fft.size);
  for (let n = from; n < to; n++) {
    const at = n < 0 ? n + fft.size : n;
    const late = n > onset ? (n - onset) / (to - onset) : 0;
    kept[at] = response[at] * (0.5 + 0.5 * Math.cos(Math.PI * late));
  }
  return spectrumOf(kept, fft);
}

/** H W conj(R) / |R|^2: the unit alone. Both H and R carry the band's weight W, so one W is put back. */
export function withoutReference(measured: Spectrum, reference: Spectrum, inverse: SweepInverse): Spectrum {
  const { fft, weight } = inverse;
  const half = fft.size / 2;
  const { re, im } = emptySpectrum(fft.size);
  let power = 0;
  let total = 0;
  for (let k = 0; k <= half; k++) {
    power += reference.re[k] ** 2 + reference.im[k] ** 2;
    total += weight[k] ** 2;
  }
  const guard = (leastPower * power) / total;
  for (let k = 0; k <= half; k++) {
    const [a, b, c, d] = [measured.re[k], measured.im[k], reference.re[k], reference.im[k]];
    const scale = weight[k] / (c * c + d * d + guard);
    re[k] = (a * c + b * d) * scale;
    im[k] = (b * c - a * d) * scale;
  }
  return { re, im };
}
