import { AllPassChain, type AllPassSection } from "./allPassChain.js";
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
  constructor({ preDelayMs, bandwidthHz, rateHz, diffusers }: ReverbInputSettings) {
    this.#delayFrames = Math.round(msToFrames(preDelayMs, rateHz));
    this.#delay = new DelayLine(this.#delayFrames);
    this.#bandwidth = new OnePole(lowPassPole(bandwidthHz, rateHz));
    this.#diffusers = new AllPassChain(diffusers);
  }

  /** Reads `input[from...]` and writes the first `frames` frames of `signal`. */
  process(input: Float32Array, from: number, signal: Float64Array, frames: number): void {
    const { ring, mask, written } = this.#delay;
    const delayFrames = this.#delayFrames;
    for (let n = 0; n < frames; n++) {
      ring[(written + n) & mask] = input[from + n];
      signal[n] = ring[(written + n - delayFrames) & mask];
    }
    this.#delay.written = (written + frames) | 0;
    this.#bandwidth.process(signal, frames);
    this.#diffusers.process(signal, frames);
  }
}
