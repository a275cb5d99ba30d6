import { cubicBetween } from "./cubic.js";
import type { Place, RoomArrays } from "./places.js";
import { ringSpare } from "./reads.js";
import { silent } from "./silent.js";

/**
 * Half of the plate's figure of eight: a swinging all-pass, a delay, damping, an all-pass, a delay; see `plateTank.ts`.
 * Rings of both halves are of one length, a power of two, and `ringSpare` floats more.
 */
export interface PlateHalfArrays {
  readonly swinging: Float32Array;
  readonly first: Float32Array;
  readonly second: Float32Array;
  readonly last: Float32Array;
  /** What comes in. */
  readonly signal: Float64Array;
  /** The LFO's values. */
  readonly swing: Float64Array;
}

export interface PlateHalfNumbers {
  readonly diffusion1: number;
  readonly diffusion2: number;
  readonly pole: number;
  readonly swingingFrames: number;
  readonly swingingGain: number;
  readonly firstFrames: number;
  readonly firstGain: number;
  readonly secondFrames: number;
  readonly secondGain: number;
  readonly lastFrames: number;
  readonly lastGain: number;
  /** Swing of the first all-pass either way. */
  readonly excursionFrames: number;
}

export interface PlateHalf extends PlateHalfArrays, PlateHalfNumbers {}

/** Where an output is fed from: so many frames behind the input of a line. */
export interface RingTap {
  readonly ring: Float32Array;
  readonly frames: number;
  readonly gain: number;
}

export interface PlateLoops {
  /**
   * Takes `frames` frames through both halves, which feed each other; no more than the shortest delay. `start` counts the
   * frames gone, `lfoAt` says where the swing of the first stands.
   */
  plateTank(halves: readonly [PlateHalf, PlateHalf]): (start: number, frames: number, lfoAt: number) => void;
  /** output[n] = sum over taps of gain ring[from + n - frames]; it may write one value more. */
  ringTaps(taps: readonly RingTap[], output: Float64Array): (from: number, frames: number) => void;
}

export interface AssembledPlate {
  plateTank(
    places: Place,
    numbers: Place,
    leftSignal: Place,
    rightSignal: Place,
    leftSwing: Place,
    rightSwing: Place,
    start: number,
    frames: number,
  ): void;
  ringTaps(
    taps: Place,
    gains: Place,
    count: number,
    mask: number,
    output: Place,
    from: number,
    frames: number,
  ): void;
}

const maskOf = (ring: Float32Array): number => ring.length - ringSpare - 1;

export const plainPlate: PlateLoops = {
  plateTank([left, right]) {
    const states = [{ damped: 0 }, { damped: 0 }];
    return (start, frames, lfoAt) => {
      addEnd(right, left.signal, start, frames);
      addEnd(left, right.signal, start, frames);
      pass(left, states[0], start, frames, lfoAt);
      pass(right, states[1], start, frames, lfoAt);
    };
  },
  ringTaps: (taps, output) => (from, frames) => {
    output.fill(0, 0, frames);
    for (const tap of taps) addTap(tap, output, from, frames);
  },
};

/** Adds what comes out of a half to what goes into the other. */
function addEnd(
  { last, lastGain, lastFrames }: PlateHalf,
  signal: Float64Array,
  start: number,
  frames: number,
): void {
  const mask = maskOf(last);
  const from = start - lastFrames;
  for (let n = 0; n < frames; n++) signal[n] += lastGain * last[(from + n) & mask];
}

function pass(
  half: PlateHalf,
  state: { damped: number },
  start: number,
  frames: number,
  lfoAt: number,
): void {
  const { swinging, first, second, last, signal, swing } = half;
  const { diffusion1: g1, diffusion2: g2, pole, excursionFrames } = half;
  const { swingingFrames, swingingGain, firstFrames, firstGain, secondFrames, secondGain } = half;
  const mask = maskOf(swinging);
  let damped = state.damped;
  for (let n = 0; n < frames; n++) {
    const now = start + n;
    const delay = swingingFrames + excursionFrames * swing[lfoAt + n];
    const whole = Math.floor(delay);
    const near = now - whole;
    let delayed =
      swingingGain *
      cubicBetween(
        swinging[(near + 1) & mask],
        swinging[near & mask],
        swinging[(near - 1) & mask],
        swinging[(near - 2) & mask],
        delay - whole,
      );
    let v = signal[n] + g1 * delayed;
    if (Math.abs(v) < silent) v = 0;
    swinging[now & mask] = v;
    first[now & mask] = delayed - g1 * v;

    damped = firstGain * first[(now - firstFrames) & mask] + pole * damped;
    if (Math.abs(damped) < silent) damped = 0;

    delayed = secondGain * second[(now - secondFrames) & mask];
    v = damped - g2 * delayed;
    if (Math.abs(v) < silent) v = 0;
    second[now & mask] = v;
    last[now & mask] = delayed + g2 * v;
  }
  state.damped = damped;
}

function addTap(
  { ring, frames: delay, gain }: RingTap,
  output: Float64Array,
  from: number,
  frames: number,
): void {
  const mask = maskOf(ring);
  for (let n = 0; n < frames; n++) output[n] += gain * ring[(from - delay + n) & mask];
}

export const assembledPlate = (loops: AssembledPlate, { at, doubles, integers }: RoomArrays): PlateLoops => ({
  plateTank([left, right]) {
    const pairs = (of: (half: PlateHalf) => number) => [of(left), of(right)];
    const places = integers(16);
    places.set([
      ...pairs(({ swinging }) => at(swinging)),
      ...pairs(({ first }) => at(first)),
      ...pairs(({ second }) => at(second)),
      ...pairs(({ last }) => at(last)),
      maskOf(left.swinging),
      ...pairs(({ firstFrames }) => firstFrames),
      ...pairs(({ secondFrames }) => secondFrames),
      ...pairs(({ lastFrames }) => lastFrames),
    ]);
    const numbers = doubles(20);
    numbers.set([
      ...pairs(({ diffusion1 }) => diffusion1),
      ...pairs(({ diffusion2 }) => diffusion2),
      ...pairs(({ pole }) => pole),
      ...pairs(({ swingingFrames }) => swingingFrames),
      ...pairs(({ swingingGain }) => swingingGain),
      ...pairs(({ firstGain }) => firstGain),
      ...pairs(({ secondGain }) => secondGain),
      // Each is fed by the other.
      right.lastGain,
      left.lastGain,
      ...pairs(({ excursionFrames }) => excursionFrames),
    ]);
    const [p, q] = [at(places), at(numbers)];
    const [leftSignal, rightSignal] = [at(left.signal), at(right.signal)];
    const [leftSwing, rightSwing] = [at(left.swing), at(right.swing)];
    return (start, frames, lfoAt) =>
      loops.plateTank(
        p,
        q,
        leftSignal,
        rightSignal,
        leftSwing + 8 * lfoAt,
        rightSwing + 8 * lfoAt,
        start,
        frames,
      );
  },
  ringTaps(taps, output) {
    const places = integers(2 * taps.length);
    const gains = doubles(taps.length);
    taps.forEach(({ ring, frames, gain }, n) => {
      places.set([at(ring), frames], 2 * n);
      gains[n] = gain;
    });
    const [p, g, o] = [at(places), at(gains), at(output)];
    const mask = maskOf(taps[0].ring);
    return (from, frames) => loops.ringTaps(p, g, taps.length, mask, o, from, frames);
  },
});

/** What `plateTank` and `ringTaps` of so many taps take in a room besides the arrays that they are given. */
export const plateLoopBytes: readonly number[] = [4 * 16, 8 * 20];
export const ringTapBytes = (taps: number): readonly number[] => [8 * taps, 8 * taps];
