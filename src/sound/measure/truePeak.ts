import { gainToDb } from "../dsp/units.js";
import { cellFrames, cellsEitherWay, middleBefore, type PeakBounds, peakBounds } from "./peakBounds.js";
import { before, type Phase, peakInterpolator } from "./peakInterpolator.js";

/** Frames looked at together. At least half the taps, so that taps reach no further than the next block. */
const blockFrames = 64;
const blockCells = blockFrames / cellFrames;
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
 * nearest samples and either the largest sample or the second differences nearby rules most out, the eight middle taps
 * most of the rest. The result is that of computing them all.
 */
export class TruePeakMeter {
  readonly #rateHz: number;
  readonly #phases: readonly Phase[];
  readonly #bounds: PeakBounds;
  /** Three blocks: the one before, the one to look between, the one behind it. */
  readonly #window = new Float32Array(3 * blockFrames);
  readonly #cellPeaks = new Float64Array(3 * blockCells);
  readonly #cellBends = new Float64Array(3 * blockCells);
  /** Frames of the third block that are in. */
  #filled = 0;
  #samplePeak = 0;
  #truePeak = 0;

  constructor(rateHz: number) {
    this.#rateHz = rateHz;
    this.#phases = peakInterpolator(rateHz);
    this.#bounds = peakBounds(this.#phases);
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
    const rest = this.copy();
    rest.push(new Float32Array(3 * blockFrames), 3 * blockFrames);
    return { samplePeak: rest.#samplePeak, truePeak: rest.#truePeak };
  }

  /** A meter that has seen the same sound. */
  copy(): TruePeakMeter {
    const twin = new TruePeakMeter(this.#rateHz);
    twin.#window.set(this.#window);
    twin.#cellPeaks.set(this.#cellPeaks);
    twin.#cellBends.set(this.#cellBends);
    twin.#filled = this.#filled;
    twin.#samplePeak = this.#samplePeak;
    twin.#truePeak = this.#truePeak;
    return twin;
  }

  #closeBlock(): void {
    for (let cell = 2 * blockCells; cell < 3 * blockCells; cell++) this.#lookAtSamples(cell);
    if (this.#phases.length > 0) {
      for (let cell = blockCells; cell < 2 * blockCells; cell++) this.#lookBetween(cell);
    }
    this.#window.copyWithin(0, blockFrames);
    this.#cellPeaks.copyWithin(0, blockCells);
    this.#cellBends.copyWithin(0, blockCells);
    this.#filled = 0;
  }

  #lookAtSamples(cell: number): void {
    const window = this.#window;
    const start = cell * cellFrames;
    let peak = 0;
    let bend = 0;
    let earlier = window[start - 2];
    let last = window[start - 1];
    for (let n = start; n < start + cellFrames; n++) {
      const x = window[n];
      const size = Math.abs(x);
      const turn = Math.abs(earlier - 2 * last + x);
      if (size > peak) peak = size;
      if (turn > bend) bend = turn;
      earlier = last;
      last = x;
    }
    this.#cellPeaks[cell] = peak;
    this.#cellBends[cell] = bend;
    if (peak > this.#samplePeak) this.#samplePeak = peak;
    if (peak > this.#truePeak) this.#truePeak = peak;
  }

  #lookBetween(cell: number): void {
    const { nearGain, farGain, lineGain, bendGain, bendGains } = this.#bounds;
    const window = this.#window;
    const start = cell * cellFrames;
    let tapPeak = 0;
    let largestBend = 0;
    let bendSum = 0;
    for (let i = 0; i < bendGains.length; i++) {
      const near = cell - cellsEitherWay + i;
      const peak = this.#cellPeaks[near];
      const bend = this.#cellBends[near];
      if (peak > tapPeak) tapPeak = peak;
      if (bend > largestBend) largestBend = bend;
      bendSum += bendGains[i] * bend;
    }
    const farBound = farGain * tapPeak;
    const bendBound = Math.min(bendGain * largestBend, bendSum);
    // Two neighbouring samples that are no larger than this have no point above the peak so far between them.
    let level = this.#truePeak / rounding;
    let harmless = Math.max((level - farBound) / nearGain, (level - bendBound) / lineGain);
    if (this.#cellPeaks[cell] <= harmless && Math.abs(window[start + cellFrames]) <= harmless) return;
    for (let n = start; n < start + cellFrames; n++) {
      if (Math.abs(window[n]) <= harmless && Math.abs(window[n + 1]) <= harmless) continue;
      this.#lookBehind(n, tapPeak);
      level = this.#truePeak / rounding;
      harmless = Math.max((level - farBound) / nearGain, (level - bendBound) / lineGain);
    }
  }

  /** Computes the points between frame n and the next, as far as the middle taps do not rule them out. */
  #lookBehind(n: number, tapPeak: number): void {
    const { middles } = this.#bounds;
    for (let p = 0; p < middles.length; p++) {
      const { taps, outerGain } = middles[p];
      const middle = Math.abs(dot(taps, this.#window, n - middleBefore));
      if ((middle + outerGain * tapPeak) * rounding <= this.#truePeak) continue;
      const value = Math.abs(dot(this.#phases[p].taps, this.#window, n - before));
      if (value > this.#truePeak) this.#truePeak = value;
    }
  }
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
