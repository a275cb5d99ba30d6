import { powerToDb } from "../dsp/units.js";
import { type Spectrum, signalOf, spectrumOf } from "./spectrum.js";
import type { SweepInverse } from "./sweepInverse.js";
import { markSamples } from "./toneLayout.js";

/** What became of the first mark, 12 dB softer than the sweep and followed by silence, to what the response foretells. */
export interface LevelCheck {
  /** Gain of the mark over the gain that the response foretells; 0 for a unit that treats loud and soft alike. */
  readonly gainDb: number;
  /** Energy of the difference to the energy foretold; null when all of it is recorded noise. */
  readonly differenceDb: number | null;
}

/** Share of the gap after the mark that is compared. */
const gapShare = 0.9;

/**
 * Plays the first mark through the measured response and compares with the mark as recorded. A compressor, a limiter,
 * a gate or a moving unit gives another.
 *
 * @param measured spectrum of the response at the delays of the recording, harmonics and all
 * @param noisePower mean square of the recorded noise
 */
export function levelCheck(
  straight: Float64Array,
  measured: Spectrum,
  inverse: SweepInverse,
  noisePower: number,
): LevelCheck | null {
  const { fft, layout } = inverse;
  const mark = spectrumOf(markSamples(layout), fft);
  for (let k = 0; k < fft.size; k++) {
    const [a, b] = [mark.re[k], mark.im[k]];
    mark.re[k] = a * measured.re[k] - b * measured.im[k];
    mark.im[k] = a * measured.im[k] + b * measured.re[k];
  }
  const foretold = signalOf(mark, fft);
  const count = Math.min(fft.size >> 1, layout.markFrames + Math.round(gapShare * layout.gapFrames));
  let [cross, energy, difference] = [0, 0, 0];
  for (let n = 0; n < count; n++) {
    const [x, y] = [foretold[n], straight[layout.markStarts[0] + n]];
    cross += x * y;
    energy += x * x;
    difference += (y - x) ** 2;
  }
  if (!(energy > 0) || !(cross > 0)) return null;
  const noise = count * noisePower;
  return {
    gainDb: 2 * powerToDb(cross / energy),
    differenceDb: difference > 2 * noise ? powerToDb((difference - noise) / energy) : null,
  };
}
