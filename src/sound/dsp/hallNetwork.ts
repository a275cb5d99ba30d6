import { cubicBetween } from "./cubic.js";
import { type HallLine, hallGroups, hallLines } from "./hallDesign.js";
import type { Lfo } from "./lfo.js";
import { flushSilent } from "./silent.js";

/** Lines of a group. */
const four = 4;

/**
 * Feedback delay network of twelve lines in three groups of four. What comes out of the lines goes back into them
 * through the matrix (I - 2/3 J) x (I - 1/2 J), a Householder reflection within each group and then one across the
 * groups: orthogonal, so that it keeps energy, and with no zero in it, so that every line feeds all lines. Lines 0 and 2
 * of each group are fed by the left input, 1 and 3 by the right. The first line of all swings, so that no resonance stays.
 * Source: J.-M. Jot and A. Chaigne, "Digital delay networks for designing artificial reverberators", AES 90th
 * Convention, 1991; embedded Householder: J.-M. Jot, "Efficient models for reverberation and distance rendering in
 * computer music and virtual audio reality", ICMC 1997 (from memory); J. O. Smith, Physical Audio Signal Processing,
 * "Householder feedback matrix".
 */
export class HallNetwork {
  /** No call may take more frames than this. */
  readonly mostFrames: number;
  /** What is heard: after `process`, the k-th lines' sum over the groups, for k = 0 to 3. */
  readonly sums: readonly Float64Array[];
  readonly #lines: readonly HallLine[];
  /**
   * A ring for each line, all of one length, one behind the other. The first `mostFrames` of each are there again behind
   * its end, so that reads of that many frames are in one piece.
   */
  readonly #memory: Float64Array;
  readonly #length: number;
  readonly #stride: number;
  /** What left each line, `mostFrames` for each. */
  readonly #mixed: Float64Array;
  /** What left the line that swings. */
  readonly #swung: Float64Array;
  readonly #states = new Float64Array(hallLines);
  readonly #excursionFrames: number;
  /** Where the next frame goes in every ring. */
  #at = 0;

  constructor(lines: readonly HallLine[], excursionFrames: number, mostFrames: number) {
    const delays = lines.map((line) => line.delayFrames);
    const shortest = Math.min(...delays);
    this.#lines = lines;
    this.#excursionFrames = Math.min(excursionFrames, shortest / 4);
    this.mostFrames = Math.min(mostFrames, Math.floor(shortest / 2));
    this.#length = 2 ** Math.ceil(Math.log2(Math.max(...delays) + this.#excursionFrames + 4));
    // Rings a power of two apart would share their places in the processor's cache.
    this.#stride = this.#length + this.mostFrames + 16;
    this.#memory = new Float64Array(hallLines * this.#stride);
    this.#mixed = new Float64Array(hallLines * this.mostFrames);
    this.#swung = new Float64Array(this.mostFrames);
    this.sums = [0, 1, 2, 3].map(() => new Float64Array(this.mostFrames));
  }

  /** How many of the next `frames` frames one call can take. */
  ready(frames: number): number {
    return Math.min(frames, this.mostFrames, this.#length - this.#at);
  }

  /** @param fed left and right, @param lfo with as many values ready, @param frames no more than `ready` says */
  process(fed: readonly Float64Array[], lfo: Lfo, frames: number): void {
    if (this.#at === 0) this.#flushSilent();
    this.#swing(lfo, frames);
    for (let group = 0; group < hallGroups; group++) this.#leave(group, frames);
    for (let k = 0; k < four; k++) this.#enter(k, fed[k & 1], frames);
    if (this.#at < this.mostFrames) this.#repeat(frames);
    this.#at = (this.#at + frames) & (this.#length - 1);
  }

  /** Reads line 0 at a delay that swings. */
  #swing({ values, at }: Lfo, frames: number): void {
    const memory = this.#memory;
    const mask = this.#length - 1;
    const delayFrames = this.#lines[0].delayFrames;
    const excursion = this.#excursionFrames;
    const start = this.#at;
    const swung = this.#swung;
    for (let n = 0; n < frames; n++) {
      const delay = delayFrames + excursion * values[at + n];
      const whole = delay | 0;
      const near = start + n - whole;
      swung[n] = cubicBetween(
        memory[(near + 1) & mask],
        memory[near & mask],
        memory[(near - 1) & mask],
        memory[(near - 2) & mask],
        delay - whole,
      );
    }
  }

  /** Out of a group's lines, through their absorption and through the group's reflection. */
  #leave(group: number, frames: number): void {
    const first = four * group;
    const { gain: gain0, pole: pole0 } = this.#lines[first];
    const { gain: gain1, pole: pole1 } = this.#lines[first + 1];
    const { gain: gain2, pole: pole2 } = this.#lines[first + 2];
    const { gain: gain3, pole: pole3 } = this.#lines[first + 3];
    const memory = this.#memory;
    const source0 = group === 0 ? this.#swung : memory;
    const from0 = group === 0 ? 0 : this.#outOf(first);
    const from1 = this.#outOf(first + 1);
    const from2 = this.#outOf(first + 2);
    const from3 = this.#outOf(first + 3);
    const mixed = this.#mixed;
    const mixed0 = first * this.mostFrames;
    const mixed1 = mixed0 + this.mostFrames;
    const mixed2 = mixed1 + this.mostFrames;
    const mixed3 = mixed2 + this.mostFrames;
    const states = this.#states;
    let y0 = states[first];
    let y1 = states[first + 1];
    let y2 = states[first + 2];
    let y3 = states[first + 3];
    for (let n = 0; n < frames; n++) {
      y0 = gain0 * source0[from0 + n] + pole0 * y0;
      y1 = gain1 * memory[from1 + n] + pole1 * y1;
      y2 = gain2 * memory[from2 + n] + pole2 * y2;
      y3 = gain3 * memory[from3 + n] + pole3 * y3;
      const half = 0.5 * (y0 + y1 + (y2 + y3));
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
    const to0 = k * this.#stride + this.#at;
    const to1 = to0 + four * this.#stride;
    const to2 = to1 + four * this.#stride;
    const mixed = this.#mixed;
    const mixed0 = k * this.mostFrames;
    const mixed1 = mixed0 + four * this.mostFrames;
    const mixed2 = mixed1 + four * this.mostFrames;
    const sums = this.sums[k];
    for (let n = 0; n < frames; n++) {
      const a = mixed[mixed0 + n];
      const b = mixed[mixed1 + n];
      const c = mixed[mixed2 + n];
      const sum = a + b + c;
      const rest = fed[n] - (2 / 3) * sum;
      sums[n] = sum;
      memory[to0 + n] = a + rest;
      memory[to1 + n] = b + rest;
      memory[to2 + n] = c + rest;
    }
  }

  /** Where the frame stands that leaves a line next. */
  #outOf(line: number): number {
    return line * this.#stride + ((this.#at - this.#lines[line].delayFrames) & (this.#length - 1));
  }

  /** Puts what was just written near the start of the rings behind their ends too. */
  #repeat(frames: number): void {
    const end = Math.min(this.#at + frames, this.mostFrames);
    for (let line = 0; line < hallLines; line++) {
      const ring = line * this.#stride;
      this.#memory.copyWithin(ring + this.#length + this.#at, ring + this.#at, ring + end);
    }
  }

  /** Once in a ring's round, when all is quiet: what has become inaudible is set to zero; see silent.ts. */
  #flushSilent(): void {
    const loudest = this.#states.reduce((most, state) => Math.max(most, Math.abs(state)), 0);
    // At rest there is nothing left to do; what comes in next is not faint yet.
    if (loudest === 0 || loudest > quiet) return;
    flushSilent(this.#memory);
    flushSilent(this.#states);
  }
}

/** -400 dB: far below anything heard, and a long way above `silent`. */
const quiet = 1e-20;
