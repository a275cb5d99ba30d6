import { cubicBetween } from "../loops/cubic.js";
import { silent } from "../loops/silent.js";
import type { MonoKernel } from "./channels.js";
import { DelayLine } from "./delayLine.js";
import { Lfo, lfoRunFrames } from "./lfo.js";

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
  readonly #line: DelayLine;
  readonly #lfos: readonly Lfo[];
  readonly #centreFrames: number;
  readonly #swingFrames: number;
  readonly #feedback: number;
  readonly #fixedTap: number;
  readonly #voice: Float32Array;
  readonly #read: typeof readCubic;

  constructor(options: ModulatedDelayOptions) {
    const { rateHz, lfoHz, phaseDegrees, voices, feedback } = options;
    this.#centreFrames =
      feedback === 0 ? options.centreFrames : Math.max(1, Math.round(options.centreFrames));
    this.#swingFrames = Math.min(options.swingFrames, this.#centreFrames - shortestCubicFrames);
    this.#feedback = feedback;
    this.#fixedTap = options.fixedTap;
    this.#read = options.interpolation === "cubic" ? readCubic : readLinear;
    // A whole run is written before it is read: the line is longer by that.
    this.#line = new DelayLine(this.#centreFrames + this.#swingFrames + lfoRunFrames);
    this.#voice = new Float32Array(lfoRunFrames);
    this.#lfos = Array.from(
      { length: voices },
      (_, voice) => new Lfo(lfoHz, rateHz, phaseDegrees + (360 * voice) / voices),
    );
  }

  process(input: Float32Array, output: Float32Array, frames: number): void {
    const lfos = this.#lfos;
    const read = this.#read;
    for (let done = 0; done < frames; ) {
      let run = frames - done;
      for (const lfo of lfos) run = lfo.ready(run);
      const start = this.#write(input, done, run);
      read(this.#line, start, lfos[0], this.#centreFrames, this.#swingFrames, output, done, run);
      if (lfos.length > 1) this.#addVoices(output, done, run, start);
      if (this.#fixedTap !== 0) this.#addFixedTap(output, done, run, start);
      for (const lfo of lfos) lfo.at += run;
      done += run;
    }
  }

  /** Writes a run into the line; gives the time of its first frame. */
  #write(input: Float32Array, done: number, run: number): number {
    const { ring, mask, written } = this.#line;
    const feedback = this.#feedback;
    if (feedback === 0) {
      for (let n = 0; n < run; n++) ring[(written + n) & mask] = input[done + n];
    } else {
      const back = written - this.#centreFrames;
      for (let n = 0; n < run; n++) {
        const v = input[done + n] - feedback * ring[(back + n) & mask];
        ring[(written + n) & mask] = Math.abs(v) < silent ? 0 : v;
      }
    }
    this.#line.written = (written + run) & mask;
    return written;
  }

  #addVoices(output: Float32Array, done: number, run: number, start: number): void {
    const lfos = this.#lfos;
    const voice = this.#voice;
    for (let v = 1; v < lfos.length; v++) {
      this.#read(this.#line, start, lfos[v], this.#centreFrames, this.#swingFrames, voice, 0, run);
      for (let n = 0; n < run; n++) output[done + n] += voice[n];
    }
    const gain = 1 / Math.sqrt(lfos.length);
    for (let n = 0; n < run; n++) output[done + n] *= gain;
  }

  #addFixedTap(output: Float32Array, done: number, run: number, start: number): void {
    const { ring, mask } = this.#line;
    const fixedTap = this.#fixedTap;
    const tap = start - this.#centreFrames;
    for (let n = 0; n < run; n++) output[done + n] += fixedTap * ring[(tap + n) & mask];
  }
}

function readCubic(
  { ring, mask }: DelayLine,
  start: number,
  { values, at }: Lfo,
  centreFrames: number,
  swingFrames: number,
  output: Float32Array,
  done: number,
  run: number,
): void {
  for (let n = 0; n < run; n++) {
    const delay = centreFrames + swingFrames * values[at + n];
    const whole = delay | 0;
    const t = start + n - whole;
    output[done + n] = cubicBetween(
      ring[(t + 1) & mask],
      ring[t & mask],
      ring[(t - 1) & mask],
      ring[(t - 2) & mask],
      delay - whole,
    );
  }
}

function readLinear(
  { ring, mask }: DelayLine,
  start: number,
  { values, at }: Lfo,
  centreFrames: number,
  swingFrames: number,
  output: Float32Array,
  done: number,
  run: number,
): void {
  for (let n = 0; n < run; n++) {
    const delay = centreFrames + swingFrames * values[at + n];
    const whole = delay | 0;
    const t = start + n - whole;
    const near = ring[t & mask];
    output[done + n] = near + (delay - whole) * (ring[(t - 1) & mask] - near);
  }
}
