import type { Place, RoomArrays } from "./places.js";

/** Frames looked at together. At least half the taps, so that taps reach no further than the next block. */
export const peakBlockFrames = 64;
/** Frames of a cell: what is near a point is told cell by cell, from two before its own to two behind. */
export const cellFrames = 16;
export const cellsEitherWay = 2;
const blockCells = peakBlockFrames / cellFrames;

/** Taps of each phase: 31 frames before the pair of frames that the sought point lies between, and 31 behind. */
export const tapsPerPhase = 64;
/** Frames from the first tap to the frame just before the sought point. */
export const before = tapsPerPhase / 2 - 1;
export const middleCount = 8;
/** Frames from the first of the middle taps to the frame just before the sought point. */
export const middleBefore = middleCount / 2 - 1;

/** More than any rounding in the sum over the taps, so that a bound stays one. */
const rounding = 1 + 1e-9;

/** By how much points between frames can stand out: see `peakBounds.ts`. */
export interface PeakGains {
  readonly nearGain: number;
  readonly farGain: number;
  readonly lineGain: number;
  readonly bendGain: number;
  readonly bendGains: Float64Array;
}

export interface PeakArrays {
  /** What comes in. */
  readonly input: Float32Array;
  /** Three blocks: the one before, the one to look between, the one behind it. */
  readonly window: Float32Array;
  /** Largest sample, largest point, then the largest sample of each cell of the window, then their bends. */
  readonly state: Float64Array;
  readonly gains: PeakGains;
  /** Phase by phase, `tapsPerPhase` for each. */
  readonly phases: Float64Array;
  /** Phase by phase its middle taps, and what the outer ones may add to them, times the largest sample near. */
  readonly middles: Float64Array;
}

export const peakStates = 2 + 6 * blockCells;

export interface PeakLoops {
  /**
   * Takes the first `frames` of the input into the third block; each time that it is full, looks between the frames of the
   * second, and moves all on by one.
   */
  peaks(arrays: PeakArrays): PeakRun;
}

/** @param filled  frames of the third block that are in; @returns those that are in then */
export type PeakRun = (frames: number, filled: number) => number;

export interface AssembledPeaks {
  peakRun(
    input: Place,
    frames: number,
    filled: number,
    window: Place,
    state: Place,
    bounds: Place,
    phases: Place,
    middles: Place,
    phaseCount: number,
  ): number;
}

const phasesOf = ({ phases }: PeakArrays): number => phases.length / tapsPerPhase;
const peaksAt = 2;
const bendsAt = 2 + 3 * blockCells;

export const plainPeaks: PeakLoops = {
  peaks: (arrays) => (frames, filledBefore) => {
    const { input, window } = arrays;
    let filled = filledBefore;
    for (let n = 0; n < frames; n++) {
      window[2 * peakBlockFrames + filled] = input[n];
      if (++filled < peakBlockFrames) continue;
      lookAtBlock(arrays);
      filled = 0;
    }
    return filled;
  },
};

function lookAtBlock(arrays: PeakArrays): void {
  const { window, state } = arrays;
  for (let cell = 2 * blockCells; cell < 3 * blockCells; cell++) lookAtSamples(arrays, cell);
  if (arrays.phases.length > 0) {
    for (let cell = blockCells; cell < 2 * blockCells; cell++) lookBetween(arrays, cell);
  }
  window.copyWithin(0, peakBlockFrames);
  state.copyWithin(peaksAt, peaksAt + blockCells, bendsAt);
  state.copyWithin(bendsAt, bendsAt + blockCells);
}

function lookAtSamples({ window, state }: PeakArrays, cell: number): void {
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
  state[peaksAt + cell] = peak;
  state[bendsAt + cell] = bend;
  if (peak > state[0]) state[0] = peak;
  if (peak > state[1]) state[1] = peak;
}

function lookBetween(arrays: PeakArrays, cell: number): void {
  const { window, state, gains } = arrays;
  const { nearGain, farGain, lineGain, bendGain, bendGains } = gains;
  const start = cell * cellFrames;
  let tapPeak = 0;
  let largestBend = 0;
  let bendSum = 0;
  for (let i = 0; i < bendGains.length; i++) {
    const near = cell - cellsEitherWay + i;
    const peak = state[peaksAt + near];
    const bend = state[bendsAt + near];
    if (peak > tapPeak) tapPeak = peak;
    if (bend > largestBend) largestBend = bend;
    bendSum += bendGains[i] * bend;
  }
  const farBound = farGain * tapPeak;
  const bendBound = Math.min(bendGain * largestBend, bendSum);
  // Two neighbouring samples that are no larger than this have no point above the peak so far between them.
  let level = state[1] / rounding;
  let harmless = Math.max((level - farBound) / nearGain, (level - bendBound) / lineGain);
  if (state[peaksAt + cell] <= harmless && Math.abs(window[start + cellFrames]) <= harmless) return;
  for (let n = start; n < start + cellFrames; n++) {
    if (Math.abs(window[n]) <= harmless && Math.abs(window[n + 1]) <= harmless) continue;
    lookBehind(arrays, n, tapPeak);
    level = state[1] / rounding;
    harmless = Math.max((level - farBound) / nearGain, (level - bendBound) / lineGain);
  }
}

/** Computes the points between frame n and the next, as far as the middle taps do not rule them out. */
function lookBehind(arrays: PeakArrays, n: number, tapPeak: number): void {
  const { window, state, phases, middles } = arrays;
  const stride = middleCount + 1;
  for (let p = 0; p < phasesOf(arrays); p++) {
    const middle = Math.abs(dot(middles, p * stride, middleCount, window, n - middleBefore));
    if ((middle + middles[p * stride + middleCount] * tapPeak) * rounding <= state[1]) continue;
    const value = Math.abs(dot(phases, p * tapsPerPhase, tapsPerPhase, window, n - before));
    if (value > state[1]) state[1] = value;
  }
}

/** Four sums side by side: one alone would wait for each addition. The count of taps is a multiple of four. */
function dot(taps: Float64Array, first: number, count: number, window: Float32Array, start: number): number {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  for (let j = first, n = start; j < first + count; j += 4, n += 4) {
    a += taps[j] * window[n];
    b += taps[j + 1] * window[n + 1];
    c += taps[j + 2] * window[n + 2];
    d += taps[j + 3] * window[n + 3];
  }
  return a + b + (c + d);
}

export const assembledPeaks = (loops: AssembledPeaks, { at, doubles }: RoomArrays): PeakLoops => ({
  peaks(arrays) {
    const { nearGain, farGain, lineGain, bendGain, bendGains } = arrays.gains;
    const bounds = doubles(5 + bendGains.length);
    bounds.set([nearGain, farGain, lineGain, bendGain, rounding, ...bendGains]);
    const [window, state, b] = [at(arrays.window), at(arrays.state), at(bounds)];
    const [phases, middles] = [at(arrays.phases), at(arrays.middles)];
    const count = phasesOf(arrays);
    const input = at(arrays.input);
    return (frames, filled) => loops.peakRun(input, frames, filled, window, state, b, phases, middles, count);
  },
});

/** What `peaks` takes in a room besides the arrays that it is given. */
export const peakLoopBytes: readonly number[] = [8 * (6 + 2 * cellsEitherWay)];
