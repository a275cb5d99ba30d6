import { type CubicReads, ringSpare } from "../loops/reads.js";
import { openRoom, roomBytes } from "../loops/room.js";
import { silent } from "../loops/silent.js";
import type { MonoKernel } from "./channels.js";
import { ringLength } from "./delayLine.js";
import { Lfo, lfoBytes, lfoRunFrames } from "./lfo.js";

/** Shortest delay that a cubic read can have, in frames: it looks at one frame later than the two it lies between. */
const shortestCubicFrames = 1;

export interface ModulatedDelayOptions {
  readonly rateHz: number;
  readonly lfoHz: number;
  /** Phase of the first voice at frame 0; the others follow evenly round the circle. */
  readonly phaseDegrees: number;
  readonly voices: number;
  /** Centre of the swing, at least 1 frame more than the swing. */
  readonly centreFrames: number;
  readonly swingFrames: number;
  /** Subtracted at the line's input, from a fixed tap at the centre; the size is under 1. */
  readonly feedback: number;
  /** Share of the fixed tap in the output: see the formula. */
  readonly fixedTap: number;
  readonly interpolation: "cubic" | "linear";
}

/**
 * The line of chorus, flanger and vibrato, for one channel. With D(n) = centre + swing sin(2 pi lfoHz n / rateHz + phase):
 *
 *     v(n) = x(n) - feedback v(n - centre)
 *     y(n) = sum over voices of v(n - D(n)) / sqrt(voices)  +  fixedTap v(n - centre)
 *
 * The fed-back tap does not move, and stands at a whole frame: with feedback the centre is rounded to one.
 * Reads between frames are third-order Lagrange, or straight lines for `linear` (as the W3C DelayNode reads).
 * Source: J. Dattorro, "Effect Design, Part 2", J. Audio Eng. Soc. 45(10), 1997, pp. 764-788, the industry-standard
 * chorus circuit and Table 7. The voices' 1/sqrt keeps the power of unlike voices: common practice, no source.
 */
export class ModulatedDelay implements MonoKernel {
  readonly #ring: Float32Array;
  readonly #mask: number;
  readonly #voices: readonly Voice[];
  readonly #centreFrames: number;
  readonly #swingFrames: number;
  readonly #feedback: number;
  readonly #fixedTap: number;
  /** What a voice reads. */
  readonly #heard: Float32Array;
  /** The same without what a read may write beyond a run. */
  readonly #heardRun: Float32Array;
  /** Where the next frame goes. */
  #at = 0;

  constructor(options: ModulatedDelayOptions) {
    const { rateHz, lfoHz, phaseDegrees, voices, feedback } = options;
    this.#centreFrames =
      feedback === 0 ? options.centreFrames : Math.max(1, Math.round(options.centreFrames));
    this.#swingFrames = Math.min(options.swingFrames, this.#centreFrames - shortestCubicFrames);
    this.#feedback = feedback;
    this.#fixedTap = options.fixedTap;
    // A whole run is written before it is read: the line is longer by that.
    const length = ringLength(this.#centreFrames + this.#swingFrames + lfoRunFrames);
    const ring = 4 * (length + ringSpare);
    const heard = 4 * (lfoRunFrames + 1);
    const room = openRoom(roomBytes(ring, heard) + voices * lfoBytes);
    this.#mask = length - 1;
    this.#ring = room.floats(length + ringSpare);
    this.#heard = room.floats(lfoRunFrames + 1);
    this.#heardRun = this.#heard.subarray(0, lfoRunFrames);
    this.#voices = Array.from({ length: voices }, (_, voice) => {
      const lfo = new Lfo(lfoHz, rateHz, phaseDegrees + (360 * voice) / voices, "sine", room);
      const isCubic = options.interpolation === "cubic";
      const read = isCubic
        ? room.loops.cubicReads(this.#ring, lfo.values, this.#heard)
        : linearReads(this.#ring, this.#mask, lfo.values, this.#heard);
      return { lfo, read };
    });
  }

  process(input: Float32Array, output: Float32Array, frames: number): void {
    const voices = this.#voices;
    const heard = this.#heard;
    for (let done = 0; done < frames; ) {
      let run = frames - done;
      for (const { lfo } of voices) run = lfo.ready(run);
      this.#write(input, done, run);
      for (let v = 0; v < voices.length; v++) {
        const { lfo, read } = voices[v];
        read(this.#at, run, lfo.at, this.#centreFrames, this.#swingFrames);
        lfo.at += run;
        if (v === 0) output.set(run === lfoRunFrames ? this.#heardRun : heard.subarray(0, run), done);
        else for (let n = 0; n < run; n++) output[done + n] += heard[n];
      }
      if (voices.length > 1) {
        const gain = 1 / Math.sqrt(voices.length);
        for (let n = 0; n < run; n++) output[done + n] *= gain;
      }
      if (this.#fixedTap !== 0) this.#addFixedTap(output, done, run);
      this.#at = (this.#at + run) & this.#mask;
      done += run;
    }
  }

  /** Writes a run into the line. */
  #write(input: Float32Array, done: number, run: number): void {
    const ring = this.#ring;
    const mask = this.#mask;
    const at = this.#at;
    const feedback = this.#feedback;
    if (feedback === 0) {
      const first = Math.min(run, mask + 1 - at);
      ring.set(input.subarray(done, done + first), at);
      if (first < run) ring.set(input.subarray(done + first, done + run), 0);
    } else {
      const back = at - this.#centreFrames;
      for (let n = 0; n < run; n++) {
        const v = input[done + n] - feedback * ring[(back + n) & mask];
        ring[(at + n) & mask] = Math.abs(v) < silent ? 0 : v;
      }
    }
    ring.copyWithin(mask + 1, 0, ringSpare);
  }

  #addFixedTap(output: Float32Array, done: number, run: number): void {
    const ring = this.#ring;
    const mask = this.#mask;
    const fixedTap = this.#fixedTap;
    const tap = this.#at - this.#centreFrames;
    for (let n = 0; n < run; n++) output[done + n] += fixedTap * ring[(tap + n) & mask];
  }
}

interface Voice {
  readonly lfo: Lfo;
  readonly read: CubicReads;
}

/** As the W3C DelayNode reads; else as `cubicReads`. */
const linearReads =
  (ring: Float32Array, mask: number, values: Float64Array, output: Float32Array): CubicReads =>
  (start, frames, lfoAt, centre, swing) => {
    for (let n = 0; n < frames; n++) {
      const delay = centre + swing * values[lfoAt + n];
      const whole = delay | 0;
      const t = start + n - whole;
      const near = ring[t & mask];
      output[n] = near + (delay - whole) * (ring[(t - 1) & mask] - near);
    }
  };
