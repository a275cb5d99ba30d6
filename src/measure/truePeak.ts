import { gainToDb } from "../dsp/units.js";
import {
  before,
  middleBefore,
  type PeakInterpolator,
  type Phase,
  peakInterpolator,
} from "./peakInterpolator.js";

/** Frames looked at together. At least half the taps, so that taps reach no further than the next block. */
const blockFrames = 64;
/** More than any rounding in the sum over the taps, so that a bound stays one. */
const rounding = 1 + 1e-9;

/**
 * Largest absolute value of the sound between and on its frames, interpolated to at least 192 kHz.
 *
 * @param channels  samples, full scale 1; before the first and behind the last frame there is silence
 * @returns dBTP; null in silence
 * Source: ITU-R BS.1770-5 (2023), Annex 2. Points of 4 a frame can miss a peak by up to 0.55 dB at 0.45 of the rate
 * (20 log10 cos(pi f / (4 fs))), 0.1 dB at a fifth of it.
 */
export function truePeakDbtp(channels: readonly Float32Array[], rateHz: number): number | null {
  const peaks = channels.map((channel) => {
    const meter = new TruePeakMeter(rateHz);
    meter.push(channel, channel.length);
    return meter.result().truePeak;
  });
  const peak = Math.max(0, ...peaks);
  return peak > 0 ? gainToDb(peak) : null;
}

/**
 * The running form, for one channel. Points that cannot exceed the peak so far are not computed: a bound from the two
 * nearest samples and either the largest sample or the largest second difference nearby rules most out, the eight middle
 * taps most of the rest. The result is that of computing them all.
 */
export class TruePeakMeter {
  readonly #rateHz: number;
  readonly #interpolator: PeakInterpolator;
  /** Three blocks: the one before, the one to look between, the one behind it. */
  readonly #window = new Float32Array(3 * blockFrames);
  readonly #blockPeaks = new Float64Array(3);
  readonly #blockBends = new Float64Array(3);
  /** Frames of the third block that are in. */
  #filled = 0;
  #samplePeak = 0;
  #truePeak = 0;

  constructor(rateHz: number) {
    this.#rateHz = rateHz;
    this.#interpolator = peakInterpolator(rateHz);
  }

  push(channel: Float32Array, frames: number): void {
    const window = this.#window;
    for (let from = 0; from < frames; ) {
      const to = Math.min(frames, from + blockFrames - this.#filled);
      const offset = 2 * blockFrames + this.#filled - from;
      for (let n = from; n < to; n++) window[offset + n] = channel[n];
      this.#filled += to - from;
      if (this.#filled === blockFrames) this.#closeBlock();
      from = to;
    }
  }

  /** Factors, 1 is full scale. May be asked for at any time; more sound can be pushed afterwards. */
  result(): { samplePeak: number; truePeak: number } {
    const rest = new TruePeakMeter(this.#rateHz);
    rest.#window.set(this.#window);
    rest.#blockPeaks.set(this.#blockPeaks);
    rest.#blockBends.set(this.#blockBends);
    rest.#filled = this.#filled;
    rest.#samplePeak = this.#samplePeak;
    rest.#truePeak = this.#truePeak;
    rest.push(new Float32Array(3 * blockFrames), 3 * blockFrames);
    return { samplePeak: rest.#samplePeak, truePeak: rest.#truePeak };
  }

  #closeBlock(): void {
    this.#lookAtSamples();
    this.#lookBetween();
    this.#window.copyWithin(0, blockFrames);
    this.#blockPeaks.copyWithin(0, 1);
    this.#blockBends.copyWithin(0, 1);
    this.#filled = 0;
  }

  #lookAtSamples(): void {
    const window = this.#window;
    const start = 2 * blockFrames;
    let peak = 0;
    let bend = 0;
    let earlier = window[start - 2];
    let last = window[start - 1];
    for (let n = start; n < 3 * blockFrames; n++) {
      const x = window[n];
      const size = Math.abs(x);
      const turn = Math.abs(earlier - 2 * last + x);
      if (size > peak) peak = size;
      if (turn > bend) bend = turn;
      earlier = last;
      last = x;
    }
    this.#blockPeaks[2] = peak;
    this.#blockBends[2] = bend;
    this.#samplePeak = Math.max(this.#samplePeak, peak);
    this.#truePeak = Math.max(this.#truePeak, peak);
  }

  #lookBetween(): void {
    const { phases, nearGain, farGain, lineGain, bendGain } = this.#interpolator;
    if (phases.length === 0) return;
    const window = this.#window;
    const tapPeak = largestOfThree(this.#blockPeaks);
    const farBound = farGain * tapPeak;
    const bendBound = bendGain * largestOfThree(this.#blockBends);
    let peak = this.#truePeak;
    let harmless = Math.max(
      (peak / rounding - farBound) / nearGain,
      (peak / rounding - bendBound) / lineGain,
    );
    if (Math.max(this.#blockPeaks[1], Math.abs(window[2 * blockFrames])) <= harmless) return;
    for (let n = blockFrames; n < 2 * blockFrames; n++) {
      if (Math.abs(window[n]) <= harmless && Math.abs(window[n + 1]) <= harmless) continue;
      const largest = largestBetween(window, n, phases, tapPeak, peak);
      if (largest <= peak) continue;
      peak = largest;
      harmless = Math.max((peak / rounding - farBound) / nearGain, (peak / rounding - bendBound) / lineGain);
    }
    this.#truePeak = peak;
  }
}

const largestOfThree = (values: Float64Array): number => Math.max(values[0], values[1], values[2]);

/** Largest value at the phases between frames n and n + 1, or `peak` when none exceeds that. */
function largestBetween(
  window: Float32Array,
  n: number,
  phases: readonly Phase[],
  tapPeak: number,
  peak: number,
): number {
  let largest = peak;
  for (let p = 0; p < phases.length; p++) {
    const { taps, middleTaps, outerGain } = phases[p];
    const middle = Math.abs(dot(middleTaps, window, n - middleBefore));
    if ((middle + outerGain * tapPeak) * rounding <= largest) continue;
    largest = Math.max(largest, Math.abs(dot(taps, window, n - before)));
  }
  return largest;
}

/** Four sums side by side: one alone would wait for each addition. The count of taps is a multiple of four. */
function dot(taps: Float64Array, window: Float32Array, start: number): number {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  for (let j = 0; j < taps.length; j += 4) {
    a += taps[j] * window[start + j];
    b += taps[j + 1] * window[start + j + 1];
    c += taps[j + 2] * window[start + j + 2];
    d += taps[j + 3] * window[start + j + 3];
  }
  return a + b + (c + d);
}
