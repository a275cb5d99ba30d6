import { type HallNetworkLine, hallLines, hallLoopBytes } from "../loops/hall.js";
import { type Room, roomBytes } from "../loops/room.js";
import { flushSilent } from "../loops/silent.js";
import { Lfo, lfoRunFrames } from "./lfo.js";

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
  /** What comes in on the left and on the right. */
  readonly fed: readonly [Float64Array, Float64Array];
  /** What is heard: after `process`, the k-th lines' sum over the groups, for k = 0 to 3. */
  readonly sums: readonly Float64Array[];
  /** No call may take more frames than this. */
  readonly #mostFrames: number;
  /**
   * A ring for each line, all of one length, one behind the other. The first `#mostFrames` of each are there again behind
   * its end, so that reads of that many frames are in one piece.
   */
  readonly #memory: Float64Array;
  readonly #length: number;
  readonly #stride: number;
  readonly #states: Float64Array;
  readonly #lfo: Lfo;
  readonly #run: (at: number, frames: number, lfoAt: number) => void;
  /** Where the next frame goes in every ring. */
  #at = 0;

  /** @param swing  of the first line, either way, and its speed */
  constructor(lines: readonly HallNetworkLine[], swing: HallSwing, room: Room) {
    const { mostFrames, excursionFrames, length, stride } = sizesOf(lines, swing.excursionFrames);
    const run = () => room.doubles(lfoRunFrames);
    this.#mostFrames = mostFrames;
    this.#length = length;
    this.#stride = stride;
    this.#memory = room.doubles(hallLines * stride);
    this.#states = room.doubles(hallLines);
    this.#lfo = new Lfo(swing.lfoHz, swing.rateHz, 0, "sine", room);
    this.fed = [run(), run()];
    const sums = room.doubles(4 * mostFrames);
    this.sums = [0, 1, 2, 3].map((k) => sums.subarray(k * mostFrames, (k + 1) * mostFrames));
    this.#run = room.loops.hall({
      lines,
      excursionFrames,
      length,
      stride,
      mostFrames,
      memory: this.#memory,
      states: this.#states,
      mixed: room.doubles(hallLines * mostFrames),
      swung: room.doubles(mostFrames + 1),
      sums,
      left: this.fed[0],
      right: this.fed[1],
      swing: this.#lfo.values,
    });
  }

  /** How many of the next `frames` frames one call can take. */
  ready(frames: number): number {
    return this.#lfo.ready(Math.min(frames, this.#mostFrames, this.#length - this.#at));
  }

  /** Takes frames of what is fed, no more than `ready` says. */
  process(frames: number): void {
    if (this.#at === 0) this.#flushSilent();
    this.#run(this.#at, frames, this.#lfo.at);
    if (this.#at < this.#mostFrames) this.#repeat(frames);
    this.#at = (this.#at + frames) & (this.#length - 1);
    this.#lfo.at += frames;
  }

  /** Puts what was just written near the start of the rings behind their ends too. */
  #repeat(frames: number): void {
    const end = Math.min(this.#at + frames, this.#mostFrames);
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

export interface HallSwing {
  readonly excursionFrames: number;
  readonly lfoHz: number;
  readonly rateHz: number;
}

function sizesOf(lines: readonly HallNetworkLine[], wantedExcursion: number) {
  const delays = lines.map((line) => line.delayFrames);
  const shortest = Math.min(...delays);
  const excursionFrames = Math.min(wantedExcursion, shortest / 4);
  const mostFrames = Math.min(lfoRunFrames, Math.floor(shortest / 2));
  const length = 2 ** Math.ceil(Math.log2(Math.max(...delays) + excursionFrames + 4));
  // Rings a power of two apart would share their places in the processor's cache.
  return { excursionFrames, mostFrames, length, stride: length + mostFrames + 16 };
}

/** What a network takes in a room. */
export const hallNetworkBytes = (lines: readonly HallNetworkLine[], excursionFrames: number): number => {
  const { stride, mostFrames } = sizesOf(lines, excursionFrames);
  const run = 8 * lfoRunFrames;
  return roomBytes(
    8 * hallLines * stride,
    8 * hallLines,
    run,
    run,
    run,
    8 * 4 * mostFrames,
    8 * hallLines * mostFrames,
    8 * (mostFrames + 1),
    ...hallLoopBytes,
  );
};

/** -400 dB: far below anything heard, and a long way above `silent`. */
const quiet = 1e-20;
