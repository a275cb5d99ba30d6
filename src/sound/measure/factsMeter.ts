import type { Known, Part, Peaks, SoundFacts, SoundPart } from "./facts.js";
import { KEnergyMeter } from "./kEnergies.js";
import { loudnessPowers } from "./loudness.js";
import { SpectrumMeter } from "./spectrum.js";
import { spectrumFacts } from "./spectrumFacts.js";
import { StepSums } from "./stepSums.js";
import { StereoSums } from "./stereoSums.js";
import { TruePeakMeter } from "./truePeak.js";
import { correlationStepsPerSecond, windowEnergies } from "./windowEnergies.js";

/** Frames that all meters see before the next ones: they stay in the nearest cache meanwhile. */
const runFrames = 2048;

const everyPart: readonly Part[] = ["whole", "windows", "loudness", "spectrum", "peaks"];

/**
 * What measures are read from, of a stereo stream of any length, in memory that grows by 3 kB a second. The result does
 * not depend on how the stream is cut into pushes, to the bit.
 */
export class FactsMeter {
  readonly #rateHz: number;
  readonly #whole = new StereoSums();
  readonly #steps: StepSums | null;
  readonly #loudness: KEnergyMeter | null;
  readonly #spectrum: SpectrumMeter | null;
  readonly #leftPeak: TruePeakMeter | null;
  #rightPeak: TruePeakMeter | null = null;
  #frames = 0;

  /** @param parts  what to take in; unless given, all that measures of sound read. What no meter gives is left aside */
  constructor(rateHz: number, parts: readonly Part[] = everyPart) {
    const made = <T>(part: Part, make: () => T) => (parts.includes(part) ? make() : null);
    this.#rateHz = rateHz;
    this.#steps = made("windows", () => new StepSums(correlationStepsPerSecond, rateHz));
    this.#loudness = made("loudness", () => new KEnergyMeter(rateHz));
    this.#spectrum = made("spectrum", () => new SpectrumMeter(rateHz));
    this.#leftPeak = made("peaks", () => new TruePeakMeter(rateHz));
  }

  /** Takes the first `frames` frames of both channels, full scale 1. */
  push(left: Float32Array, right: Float32Array, frames: number): void {
    for (let from = 0; from < frames; from += runFrames) {
      const run = Math.min(runFrames, frames - from);
      const l = left.subarray(from, from + run);
      const r = left === right ? l : right.subarray(from, from + run);
      this.#whole.push(l, r, run);
      this.#steps?.push(l, r, run);
      this.#loudness?.push(l, r, run);
      this.#spectrum?.push(l, r, run);
      // As long as both sides are one array, one meter stands for both.
      if (l !== r) this.#rightPeak ??= this.#leftPeak?.copy() ?? null;
      this.#leftPeak?.push(l, run);
      this.#rightPeak?.push(r, run);
    }
    this.#frames += frames;
  }

  /**
   * What was pushed so far; more can be pushed afterwards.
   * @throws RangeError when the sound holds NaN or infinite samples
   */
  facts(): Known & Pick<SoundFacts, "whole"> {
    const whole = this.#whole.result();
    if (!Number.isFinite(whole.mid + whole.side)) {
      throw new RangeError(
        "StereoMeter: the sound holds NaN or infinite samples; refuse it where it is read",
      );
    }
    const peaks = this.#peaks();
    const parts: { readonly [P in SoundPart]: SoundFacts[P] | undefined } = {
      whole,
      windows: this.#steps ? windowEnergies(this.#steps) : undefined,
      loudness: this.#loudness ? loudnessPowers(this.#loudness.result()) : undefined,
      spectrum: this.#spectrum ? spectrumFacts(this.#spectrum.result()) : undefined,
      peaks,
      peaksAtMost: peaks,
    };
    return { ...parts, whole, rateHz: this.#rateHz, frames: this.#frames };
  }

  #peaks(): Peaks | undefined {
    if (!this.#leftPeak) return undefined;
    const sides = [this.#leftPeak, this.#rightPeak ?? this.#leftPeak].map((meter) => meter.result());
    return {
      samplePeak: Math.max(...sides.map(({ samplePeak }) => samplePeak)),
      truePeak: Math.max(...sides.map(({ truePeak }) => truePeak)),
    };
  }
}
