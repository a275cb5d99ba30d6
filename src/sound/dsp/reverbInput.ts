import type { Room } from "../loops/room.js";
import { AllPassChain, type AllPassSection, allPassBytes } from "./allPassChain.js";
import { DelayLine } from "./delayLine.js";
import { lowPassPole, OnePole } from "./onePole.js";
import { msToFrames } from "./units.js";

export interface ReverbInputSettings {
  readonly preDelayMs: number;
  /** Corner of a first-order low-pass. */
  readonly bandwidthHz: number;
  readonly rateHz: number;
  readonly diffusers: readonly AllPassSection[];
}

/** What stands ahead of a reverberator, for one channel: pre-delay, low-pass, diffusers. */
export class ReverbInput {
  readonly #delay: DelayLine;
  readonly #delayFrames: number;
  readonly #bandwidth: OnePole;
  readonly #diffusers: AllPassChain;
  readonly #signal: Float64Array;

  /** @param signal  where it writes, of the room */
  constructor(
    { preDelayMs, bandwidthHz, rateHz, diffusers }: ReverbInputSettings,
    signal: Float64Array,
    room: Room,
  ) {
    this.#signal = signal;
    this.#delayFrames = Math.round(msToFrames(preDelayMs, rateHz));
    this.#delay = new DelayLine(this.#delayFrames);
    this.#bandwidth = new OnePole(lowPassPole(bandwidthHz, rateHz));
    this.#diffusers = new AllPassChain(diffusers, signal, room);
  }

  /** Reads `input[from...]` and writes the first `frames` frames of `signal`. */
  process(input: Float32Array, from: number, frames: number): void {
    const signal = this.#signal;
    const { ring, mask, written } = this.#delay;
    const delayFrames = this.#delayFrames;
    for (let n = 0; n < frames; n++) {
      ring[(written + n) & mask] = input[from + n];
      signal[n] = ring[(written + n - delayFrames) & mask];
    }
    this.#delay.written = (written + frames) | 0;
    this.#bandwidth.process(signal, frames);
    this.#diffusers.process(frames);
  }
}

/** What it takes in a room. */
export const reverbInputBytes = (diffusers: readonly AllPassSection[]): number => allPassBytes(diffusers);
