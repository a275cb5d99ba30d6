import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { powerToDb } from "../../sound/dsp/units.js";
import type { SweepInverse } from "./sweepInverse.js";
import { type Spectrum, signalOf, spectrumOf } from "./sweepSpectrum.js";
import { markBandHz, markSamples } from "./toneLayout.js";

/** What became of the first mark, 12 dB softer than the sweep and followed by silence, to what the response foretells. */
export interface LevelCheck {
  /** Gain of the mark over the gain that the response foretells; 0 for a unit that treats loud and soft alike. */
  readonly gainDb: number;
  /** Energy of the difference to the energy foretold; null when all of it is recorded noise. */
  readonly differenceDb: number | null;
  /** Correlation of the mark foretold with the mark recorded, -1 to 1: near 0 this is not the tone. */
  readonly likeness: number;
}

/** How long after the mark is compared, and at most this share of the gap. */
const afterSeconds = 0.5;
const gapShare = 0.9;

/**
 * Plays the first mark through the measured response and compares with the mark as recorded. A compressor, a limiter,
 * a gate or a moving unit gives another.
 *
 * @param measured spectrum of the response at the delays of the recording, harmonics and all
 * @param noisePower mean square of the recorded noise, taken for white
 */
export function levelCheck(
  straight: Float64Array,
  measured: Spectrum,
  inverse: SweepInverse,
  noisePower: number,
): LevelCheck {
  const { fft, layout } = inverse;
  const mark = spectrumOf(markSamples(layout), fft);
  for (let k = 0; k < mark.re.length; k++) {
    const [a, b] = [mark.re[k], mark.im[k]];
    mark.re[k] = a * measured.re[k] - b * measured.im[k];
    mark.im[k] = a * measured.im[k] + b * measured.re[k];
  }
  const foretold = signalOf(mark, fft);
  const after = Math.min(gapShare * layout.gapFrames, afterSeconds * layout.settings.rateHz);
  const count = Math.min(fft.size >> 1, layout.markFrames + Math.round(after));
  const small = realFftOf(fftSizeFor(count));
  const expected = spectrumOf(foretold, small, 0, count);
  const recorded = spectrumOf(straight, small, layout.markStarts[0], count);
  const { rateHz } = layout.settings;
  const [lowHz, highHz] = markBandHz(layout);
  const [first, last] = [lowHz, highHz].map((hz) => Math.round((hz * small.size) / rateHz));
  let [cross, energy, recordedEnergy] = [0, 0, 0];
  for (let k = first; k <= last; k++) {
    cross += expected.re[k] * recorded.re[k] + expected.im[k] * recorded.im[k];
    energy += expected.re[k] ** 2 + expected.im[k] ** 2;
    recordedEnergy += recorded.re[k] ** 2 + recorded.im[k] ** 2;
  }
  if (!(energy > 0) || !(recordedEnergy > 0)) return { gainDb: 0, differenceDb: null, likeness: 0 };
  const noise = (last - first + 1) * count * noisePower;
  const difference = recordedEnergy - 2 * cross + energy;
  return {
    gainDb: 2 * powerToDb(Math.max(1e-6, cross / energy)),
    differenceDb: difference > 2 * noise ? powerToDb((difference - noise) / energy) : null,
    likeness: cross / Math.sqrt(energy * recordedEnergy),
  };
}
