import { cubicBetween } from "./cubic.js";
import { type HallLine, hallLines } from "./hallDesign.js";
import type { Lfo } from "./lfo.js";
import { silent } from "./silent.js";

/** Lines of a group, and groups. */
const four = 4;

/** How much an output hears of the lines that the other side's input feeds. */
const across = 0.6;

/** What the outputs hear of the lines of each group. The rows are orthogonal: unlike lines give unlike outputs. */
export const hallWeights = [
  [1, -across, 1, -across],
  [across, 1, -across, -1],
] as const;

/**
 * Feedback delay network of sixteen lines in four groups of four. What comes out of the lines goes back into them
 * through the matrix (I - J/2) x (I - J/2), a Householder reflection within each group and then one across the groups:
 * sixteen entries of 1/4 or -1/4 in each row, orthogonal, so that it keeps energy and every line feeds all lines alike.
 * Lines 0 and 2 of each group are fed by the left input, 1 and 3 by the right. The first line of every other group swings,
 * so that no resonance stays.
 * Source: J.-M. Jot and A. Chaigne 1991; embedded Householder: J.-M. Jot, "Efficient models for reverberation and
 * distance rendering in computer music and virtual audio reality", ICMC 1997 (from memory); J. O. Smith, Physical
 * Audio Signal Processing, "Householder feedback matrix".
 */
export class HallNetwork {
  /** No call may take more frames than this. */
  readonly mostFrames: number;
  readonly #lines: readonly HallLine[];
  /** Rings of one length for all lines, one behind the other: with one mask and one array the loops are twice as fast. */
  readonly #memory: Float64Array;
  readonly #stride: number;
  readonly #mask: number;
  /** What left each line, `mostFrames` for each. */
  readonly #mixed: Float64Array;
  /** What left the swinging line of the group at work. */
  readonly #swung: Float64Array;
  readonly #states = new Float64Array(hallLines);
  readonly #excursionFrames: number;
  #frame = 0;

  constructor(lines: readonly HallLine[], excursionFrames: number, mostFrames: number) {
    const delays = lines.map((line) => line.delayFrames);
    const shortest = Math.min(...delays);
    this.#lines = lines;
    this.#excursionFrames = Math.min(excursionFrames, shortest / 4);
    this.mostFrames = Math.min(mostFrames, Math.floor(shortest / 2));
    const length = 2 ** Math.ceil(Math.log2(Math.max(...delays) + this.#excursionFrames + 4));
    this.#mask = length - 1;
    // Rings a power of two apart would share their places in the processor's cache.
    this.#stride = length + 80;
    this.#memory = new Float64Array(hallLines * this.#stride);
    this.#mixed = new Float64Array(hallLines * this.mostFrames);
    this.#swung = new Float64Array(2 ** Math.ceil(Math.log2(this.mostFrames)));
  }

  /**
   * Runs `frames` frames: adds what is heard to `heard` (left, right), then takes `fed` (left, right).
   * @param lfos one each for groups 0 and 2, with as many values ready
   */
  process(
    fed: readonly Float64Array[],
    heard: readonly Float64Array[],
    lfos: readonly Lfo[],
    frames: number,
  ): void {
    for (let group = 0; group < four; group++) {
      const swings = group % 2 === 0;
      if (swings) this.#swing(four * group, lfos[group / 2], frames);
      this.#leave(group, swings, heard, frames);
    }
    for (let k = 0; k < four; k++) this.#enter(k, fed[k & 1], frames);
    this.#frame = (this.#frame + frames) | 0;
  }

  /** Reads a line at a delay that swings. */
  #swing(line: number, { values, at }: Lfo, frames: number): void {
    const memory = this.#memory;
    const mask = this.#mask;
    const ring = line * this.#stride;
    const delayFrames = this.#lines[line].delayFrames;
    const excursion = this.#excursionFrames;
    const start = this.#frame;
    const swung = this.#swung;
    for (let n = 0; n < frames; n++) {
      const delay = delayFrames + excursion * values[at + n];
      const whole = Math.floor(delay);
      const near = start + n - whole;
      swung[n] = cubicBetween(
        memory[ring + ((near + 1) & mask)],
        memory[ring + (near & mask)],
        memory[ring + ((near - 1) & mask)],
        memory[ring + ((near - 2) & mask)],
        delay - whole,
      );
    }
  }

  /** Out of a group's lines, through their absorption, to the outputs and through the group's reflection. */
  #leave(group: number, swings: boolean, heard: readonly Float64Array[], frames: number): void {
    const first = four * group;
    const { delayFrames: delay0, gain: gain0, pole: pole0 } = this.#lines[first];
    const { delayFrames: delay1, gain: gain1, pole: pole1 } = this.#lines[first + 1];
    const { delayFrames: delay2, gain: gain2, pole: pole2 } = this.#lines[first + 2];
    const { delayFrames: delay3, gain: gain3, pole: pole3 } = this.#lines[first + 3];
    const memory = this.#memory;
    const mask = this.#mask;
    const ring0 = first * this.#stride;
    const ring1 = ring0 + this.#stride;
    const ring2 = ring1 + this.#stride;
    const ring3 = ring2 + this.#stride;
    const mixed = this.#mixed;
    const mixed0 = first * this.mostFrames;
    const mixed1 = mixed0 + this.mostFrames;
    const mixed2 = mixed1 + this.mostFrames;
    const mixed3 = mixed2 + this.mostFrames;
    const left = heard[0];
    const right = heard[1];
    const start = this.#frame;
    const source = swings ? this.#swung : memory;
    const sourceRing = swings ? 0 : ring0;
    const sourceMask = swings ? this.#swung.length - 1 : mask;
    const sourceStart = swings ? 0 : start - delay0;
    const states = this.#states;
    let y0 = states[first];
    let y1 = states[first + 1];
    let y2 = states[first + 2];
    let y3 = states[first + 3];
    for (let n = 0; n < frames; n++) {
      const now = start + n;
      y0 = gain0 * source[sourceRing + ((sourceStart + n) & sourceMask)] + pole0 * y0;
      y1 = gain1 * memory[ring1 + ((now - delay1) & mask)] + pole1 * y1;
      y2 = gain2 * memory[ring2 + ((now - delay2) & mask)] + pole2 * y2;
      y3 = gain3 * memory[ring3 + ((now - delay3) & mask)] + pole3 * y3;
      if (Math.abs(y0) < silent) y0 = 0;
      if (Math.abs(y1) < silent) y1 = 0;
      if (Math.abs(y2) < silent) y2 = 0;
      if (Math.abs(y3) < silent) y3 = 0;
      const even = y0 + y2;
      const odd = y1 + y3;
      left[n] += even - across * odd;
      right[n] += across * (y0 - y2) + (y1 - y3);
      const half = 0.5 * (even + odd);
      mixed[mixed0 + n] = y0 - half;
      mixed[mixed1 + n] = y1 - half;
      mixed[mixed2 + n] = y2 - half;
      mixed[mixed3 + n] = y3 - half;
    }
    states[first] = y0;
    states[first + 1] = y1;
    states[first + 2] = y2;
    states[first + 3] = y3;
  }

  /** Reflects the k-th lines of all groups, adds the input and goes into their lines. */
  #enter(k: number, fed: Float64Array, frames: number): void {
    const memory = this.#memory;
    const mask = this.#mask;
    const ring0 = k * this.#stride;
    const ring1 = ring0 + four * this.#stride;
    const ring2 = ring1 + four * this.#stride;
    const ring3 = ring2 + four * this.#stride;
    const mixed = this.#mixed;
    const mixed0 = k * this.mostFrames;
    const mixed1 = mixed0 + four * this.mostFrames;
    const mixed2 = mixed1 + four * this.mostFrames;
    const mixed3 = mixed2 + four * this.mostFrames;
    const start = this.#frame;
    for (let n = 0; n < frames; n++) {
      const now = (start + n) & mask;
      const a = mixed[mixed0 + n];
      const b = mixed[mixed1 + n];
      const c = mixed[mixed2 + n];
      const d = mixed[mixed3 + n];
      const rest = fed[n] - 0.5 * (a + b + c + d);
      memory[ring0 + now] = a + rest;
      memory[ring1 + now] = b + rest;
      memory[ring2 + now] = c + rest;
      memory[ring3 + now] = d + rest;
    }
  }
}
