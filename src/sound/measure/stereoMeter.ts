import { type Clip, framesOf } from "../audio/clip.js";
import { gainToDb } from "../dsp/units.js";
import { balanceDbOf } from "./balance.js";
import { octaveMeasures, thirdOctaveMeasures, worstFoldDownHz } from "./bands.js";
import { correlationOf } from "./correlation.js";
import { correlationOverTimeOf, correlationStepsPerSecond } from "./correlationOverTime.js";
import { foldDownLossDbOf } from "./foldDown.js";
import { iaccOf } from "./iacc.js";
import { KEnergyMeter, stereoSteps } from "./kEnergies.js";
import { gatingBlockPowers, integratedLufsOf, momentaryMaxLufsOf, shortTermMaxLufsOf } from "./loudness.js";
import { loudnessRangeLuOf } from "./loudnessRange.js";
import type { Measures } from "./measures.js";
import { reasonsOf } from "./reasons.js";
import { sideShareOf, sideToMidDbOf } from "./sideShare.js";
import { SpectrumMeter } from "./spectrum.js";
import { StepSums } from "./stepSums.js";
import { StereoSums } from "./stereoSums.js";
import { centroidHzOf, tiltDbPerOctaveOf } from "./tone.js";
import { TruePeakMeter } from "./truePeak.js";

/** Frames that all meters see before the next ones: they stay in the nearest cache meanwhile. */
const runFrames = 2048;

/**
 * Every measure that a stereo signal gives by itself, of a stream of any length, in memory that grows by 3 kB a second.
 * The result does not depend on how the stream is cut into pushes, to the bit.
 */
export class StereoMeter {
  readonly #rateHz: number;
  readonly #sums = new StereoSums();
  readonly #steps: StepSums;
  readonly #loudness: KEnergyMeter;
  readonly #spectrum: SpectrumMeter;
  readonly #leftPeak: TruePeakMeter;
  #rightPeak: TruePeakMeter | null = null;

  constructor(rateHz: number) {
    this.#rateHz = rateHz;
    this.#steps = new StepSums(correlationStepsPerSecond, rateHz);
    this.#loudness = new KEnergyMeter(rateHz);
    this.#spectrum = new SpectrumMeter(rateHz);
    this.#leftPeak = new TruePeakMeter(rateHz);
  }

  /** Takes the first `frames` frames of both channels, full scale 1. */
  push(left: Float32Array, right: Float32Array, frames: number): void {
    for (let from = 0; from < frames; from += runFrames) {
      const run = Math.min(runFrames, frames - from);
      const l = left.subarray(from, from + run);
      const r = left === right ? l : right.subarray(from, from + run);
      this.#sums.push(l, r, run);
      this.#steps.push(l, r, run);
      this.#loudness.push(l, r, run);
      this.#spectrum.push(l, r, run);
      // As long as both sides are one array, one meter stands for both.
      if (l !== r) this.#rightPeak ??= this.#leftPeak.copy();
      this.#leftPeak.push(l, run);
      this.#rightPeak?.push(r, run);
    }
  }

  /** Powers of the 400 ms gating blocks so far, one every 100 ms: what matching needs besides the measures. */
  gatingBlocks(): Float64Array {
    return gatingBlockPowers(stereoSteps(this.#loudness.result()), this.#rateHz);
  }

  /**
   * The measures of what was pushed so far; more can be pushed afterwards. Fields that need a wiring are null.
   * @throws RangeError when the sound holds NaN or infinite samples
   */
  result(): Measures {
    const rateHz = this.#rateHz;
    const energies = this.#sums.result();
    if (!Number.isFinite(energies.mid + energies.side)) {
      throw new RangeError(
        "StereoMeter: the sound holds NaN or infinite samples; refuse it where it is read",
      );
    }
    const weighted = this.#loudness.result();
    const steps = stereoSteps(weighted);
    const spectrum = this.#spectrum.result();
    const peaks = [this.#leftPeak, this.#rightPeak ?? this.#leftPeak].map((meter) => meter.result());
    const measures = {
      correlation: correlationOf(energies),
      correlationOverTime: correlationOverTimeOf(this.#steps),
      iacc: iaccOf(spectrum),
      sideShare: sideShareOf(energies),
      sideToMidDb: finite(sideToMidDbOf(energies)),
      widthKept: null,
      balanceDb: finite(balanceDbOf(energies)),
      foldDownLossDb: finite(foldDownLossDbOf(weighted)),
      worstFoldDownHz: worstFoldDownHz(spectrum),
      integratedLufs: integratedLufsOf(steps, rateHz),
      shortTermMaxLufs: shortTermMaxLufsOf(steps, rateHz),
      momentaryMaxLufs: momentaryMaxLufsOf(steps, rateHz),
      loudnessRangeLu: loudnessRangeLuOf(steps, rateHz),
      truePeakDbtp: finite(gainToDb(Math.max(...peaks.map(({ truePeak }) => truePeak)))),
      samplePeakDbfs: finite(gainToDb(Math.max(...peaks.map(({ samplePeak }) => samplePeak)))),
      centroidHz: centroidHzOf(spectrum),
      tiltDbPerOctave: tiltDbPerOctaveOf(spectrum),
      bands: octaveMeasures(spectrum),
      thirds: thirdOctaveMeasures(spectrum),
      decay: null,
      wetToDryDb: null,
      comb: null,
    };
    return { ...measures, reasons: reasonsOf(measures, energies, rateHz) };
  }
}

/** The measures of a whole clip: mono as left = right, otherwise the first two channels. */
export function measureClip(clip: Clip): Measures {
  const meter = new StereoMeter(clip.rateHz);
  const [left = new Float32Array(0), right = left] = clip.channels;
  meter.push(left, right, framesOf(clip));
  return meter.result();
}

const finite = (value: number | null): number | null =>
  value !== null && Number.isFinite(value) ? value : null;
