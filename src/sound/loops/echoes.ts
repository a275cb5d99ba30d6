import type { Place, RoomArrays } from "./places.js";
import { silent } from "./silent.js";

/** Two delay lines, left and right, each with the filter of `loopFilter.ts` in its loop. */
export interface EchoArrays {
  readonly left: Float32Array;
  readonly right: Float32Array;
  readonly leftOut: Float32Array;
  readonly rightOut: Float32Array;
  /** Of one length, a power of two and longer than both delays. */
  readonly leftRing: Float32Array;
  readonly rightRing: Float32Array;
  /** Whole frames, at least 1. */
  readonly leftFrames: number;
  readonly rightFrames: number;
  readonly filter: LoopNumbers;
  readonly feedback: number;
  /** Left and right: what went into the filters last, and what their high-pass and low-pass gave. */
  readonly states: Float64Array;
  /** What leaves a side feeds the other, and the mean of both inputs enters on the left: ping-pong. */
  readonly isCrossed: boolean;
}

/** Of a filter in a loop, y = gain (x - x1) + pole y1, then z = z1 + share (y - z1). */
export interface LoopNumbers {
  readonly gain: number;
  readonly pole: number;
  readonly share: number;
}

/** States of both sides. */
export const echoStates = 6;

export interface EchoLoops {
  /** Takes the first `frames` frames; `start` counts those gone. */
  echoes(arrays: EchoArrays): (start: number, frames: number) => void;
}

export interface AssembledEchoes {
  echoes(
    left: Place,
    right: Place,
    leftOut: Place,
    rightOut: Place,
    ring: Place,
    otherRing: Place,
    mask: number,
    delayFrames: number,
    otherFrames: number,
    numbers: Place,
    states: Place,
    isCrossed: number,
    start: number,
    frames: number,
  ): void;
}

export const plainEchoes: EchoLoops = {
  echoes: (arrays) => (start, frames) => run(arrays, start, frames),
};

function run(arrays: EchoArrays, start: number, frames: number): void {
  const { left, right, leftOut, rightOut, leftRing, rightRing, leftFrames, rightFrames } = arrays;
  const { filter, feedback, states, isCrossed } = arrays;
  const mask = leftRing.length - 1;
  for (let n = 0; n < frames; n++) {
    const now = (start + n) & mask;
    const leftLate = leftRing[(start + n - leftFrames) & mask];
    const rightLate = rightRing[(start + n - rightFrames) & mask];
    const leftBack = filtered(filter, states, 0, leftLate);
    const rightBack = filtered(filter, states, 1, rightLate);
    if (isCrossed) {
      leftRing[now] = 0.5 * (left[n] + right[n]) + feedback * rightBack;
      rightRing[now] = 0 + feedback * leftBack;
    } else {
      leftRing[now] = left[n] + feedback * leftBack;
      rightRing[now] = right[n] + feedback * rightBack;
    }
    leftOut[n] = leftLate;
    rightOut[n] = rightLate;
  }
}

function filtered({ gain, pole, share }: LoopNumbers, states: Float64Array, side: 0 | 1, x: number): number {
  let high = gain * (x - states[side]) + pole * states[2 + side];
  if (Math.abs(high) < silent) high = 0;
  let low = states[4 + side] + share * (high - states[4 + side]);
  if (Math.abs(low) < silent) low = 0;
  states[side] = x;
  states[2 + side] = high;
  states[4 + side] = low;
  return low;
}

export const assembledEchoes = (loops: AssembledEchoes, { at, doubles }: RoomArrays): EchoLoops => ({
  echoes(arrays) {
    const { filter, feedback, leftFrames, rightFrames, isCrossed } = arrays;
    const numbers = doubles(4);
    numbers.set([filter.gain, filter.pole, filter.share, feedback]);
    const [l, r, lo, ro] = [at(arrays.left), at(arrays.right), at(arrays.leftOut), at(arrays.rightOut)];
    const [ring, otherRing] = [at(arrays.leftRing), at(arrays.rightRing)];
    const mask = arrays.leftRing.length - 1;
    const [n, s, crossed] = [at(numbers), at(arrays.states), isCrossed ? 1 : 0];
    return (start, frames) =>
      loops.echoes(
        l,
        r,
        lo,
        ro,
        ring,
        otherRing,
        mask,
        leftFrames,
        rightFrames,
        n,
        s,
        crossed,
        start,
        frames,
      );
  },
});

/** What `echoes` takes in a room besides the arrays that it is given. */
export const echoLoopBytes: readonly number[] = [8 * 4];
