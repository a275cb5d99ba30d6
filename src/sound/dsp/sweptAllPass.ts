import { flushSilent, silent } from "../loops/silent.js";
import type { MonoKernel } from "./channels.js";
import { Lfo } from "./lfo.js";

export interface SweptAllPassOptions {
  readonly rateHz: number;
  readonly lfoHz: number;
  readonly phaseDegrees: number;
  /** Corner at mid-sweep. */
  readonly centreHz: number;
  /** Lowest corner to highest. */
  readonly sweepOctaves: number;
  readonly stages: number;
  /** Added at the first stage's input, one frame late; the size is under 1. */
  readonly feedback: number;
}

/** Frames between two exact coefficients; it divides the oscillator's run. */
const gridFrames = 16;

/**
 * A chain of first-order all-pass stages with a common corner that swings in octaves, for one channel. Each stage is
 * H(z) = (c + z^-1)/(1 + c z^-1), c = (t - 1)/(t + 1), t = tan(pi corner/rateHz): -90 degrees at the corner.
 * The coefficient is exact every 16 frames, counted from 0, and a straight line between. Corners are held under 0.49
 * of the rate.
 * Source: J. O. Smith, Physical Audio Signal Processing, "Phasing with first-order allpass filters".
 */
export class SweptAllPass implements MonoKernel {
  readonly #options: SweptAllPassOptions;
  readonly #lfo: Lfo;
  readonly #states: Float64Array;
  /** The coefficient at the last exact frame, at the next one, and the frames gone since the last. */
  #last = 0;
  #next: number;
  #gone = gridFrames;
  #returned = 0;

  constructor(options: SweptAllPassOptions) {
    this.#options = options;
    this.#states = new Float64Array(options.stages);
    this.#lfo = new Lfo(options.lfoHz, options.rateHz / gridFrames, options.phaseDegrees);
    this.#next = this.#coefficient();
  }

  process(input: Float32Array, output: Float32Array, frames: number): void {
    for (let done = 0; done < frames; ) {
      if (this.#gone === gridFrames) {
        this.#last = this.#next;
        this.#next = this.#coefficient();
        this.#gone = 0;
        flushSilent(this.#states);
      }
      const run = Math.min(frames - done, gridFrames - this.#gone);
      this.#run(input, output, done, done + run);
      this.#gone += run;
      done += run;
    }
  }

  #run(input: Float32Array, output: Float32Array, from: number, to: number): void {
    const states = this.#states;
    const { feedback, stages } = this.#options;
    const last = this.#last;
    const slope = (this.#next - last) / gridFrames;
    const gone = this.#gone - from;
    let returned = this.#returned;
    for (let n = from; n < to; n++) {
      const c = last + (gone + n) * slope;
      let sample = input[n] + feedback * returned;
      for (let stage = 0; stage < stages; stage++) {
        const turned = c * sample + states[stage];
        states[stage] = sample - c * turned;
        sample = turned;
      }
      if (Math.abs(sample) < silent) sample = 0;
      returned = sample;
      output[n] = sample;
    }
    this.#returned = returned;
  }

  #coefficient(): number {
    const { centreHz, sweepOctaves, rateHz } = this.#options;
    this.#lfo.ready(1);
    const swing = this.#lfo.values[this.#lfo.at];
    this.#lfo.at++;
    const cornerHz = Math.min(centreHz * 2 ** ((sweepOctaves / 2) * swing), 0.49 * rateHz);
    const t = Math.tan((Math.PI * cornerHz) / rateHz);
    return (t - 1) / (t + 1);
  }
}
