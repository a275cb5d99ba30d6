import type { Clock } from "./clock.js";
import { readStretched } from "./fractionalRead.js";
import { type LevelCheck, levelCheck } from "./levelCheck.js";
import type { Onset } from "./onset.js";
import { type RecordedNoise, recordedNoise } from "./recordedNoise.js";
import type { Side, SideName } from "./recordedSides.js";
import { withoutReference } from "./reference.js";
import type { SweepInverse } from "./sweepInverse.js";
import { firstArrival, meanSpectrum } from "./sweepRepeats.js";
import { type Spectrum, signalOf } from "./sweepSpectrum.js";

/** One recorded side, its sweeps drawn together and averaged. */
export interface SideSweeps {
  readonly name: SideName;
  /** The recording on the tone's clock. */
  readonly straight: Float64Array;
  /** Mean response of the repeats as a spectrum, everything on the way included. */
  readonly mean: Spectrum;
  /** The same with the reference divided out. */
  readonly spectrum: Spectrum;
  /** The same as a circular response: products of order n stand L ln n ahead of frame 0. */
  readonly response: Float64Array;
  readonly onset: Onset;
  readonly noise: RecordedNoise;
  readonly levels: LevelCheck;
}

/** Brings a side onto the tone's clock and averages what its sweeps give. */
export function sweepsOf(
  side: Side,
  clock: Clock,
  inverse: SweepInverse,
  reference: Spectrum | null,
): SideSweeps {
  const { layout, fft } = inverse;
  const straight = readStretched(side.samples, clock.origin, clock.stretch, layout.frames);
  const noise = recordedNoise(straight, clock, inverse);
  const mean = meanSpectrum(straight, inverse);
  const levels = levelCheck(straight, mean, inverse, noise.power);
  const spectrum = reference === null ? mean : withoutReference(mean, reference, inverse);
  const response = signalOf(spectrum, fft);
  return {
    name: side.name,
    straight,
    mean,
    spectrum,
    response,
    onset: firstArrival(response, noise.responsePower / layout.settings.repeats, inverse),
    noise,
    levels,
  };
}
