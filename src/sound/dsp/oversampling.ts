import { openRoom, roomBytes } from "../loops/room.js";
import { flushSilent } from "../loops/silent.js";
import { halfBandArrays, halfBandBytes, halfBandCoefficients, halfBandDelay } from "./halfBand.js";

/** Times the rate at which a bent curve is applied. */
const oversampling = 8;

/** Pass band of the whole, as a share of the rate: 20 kHz at 44.1 kHz. */
const passBand = 20_000 / 44_100;
/** Sections of each doubling, first to third: 100 dB and more of stop band each. */
const sectionsOfStage = [10, 4, 3] as const;

const stages = sectionsOfStage.map((sections, stage) =>
  halfBandCoefficients(sections, 0.5 - (2 * passBand) / 2 ** (stage + 1)),
);

/** Delay of low tones, up and down again, in frames. */
export const oversamplingDelayFrames = stages.reduce(
  (sum, stage, n) => sum + (2 * halfBandDelay(stage) - 1) / 2 ** (n + 1),
  0,
);

/** Frames worked at once, and the grid of frames on which faint states are set to zero, whatever the blocks. */
const runFrames = 64;

/**
 * Eight times the rate and back, for one channel, bent by a soft clip in between, so that what the curve adds above half the
 * rate is filtered off before it can fold down.
 */
export class OversampledBend {
  readonly #base: Float64Array;
  readonly #up: readonly ((frames: number) => void)[];
  readonly #down: readonly ((frames: number) => void)[];
  readonly #states: readonly Float64Array[];
  readonly #bend: (count: number) => void;
  #into = 0;

  /** y = tanh(drive x + asymmetry) - tanh(asymmetry) */
  constructor(drive: number, asymmetry: number) {
    const sizes = [1, 2, 4, 8].map((times) => times * runFrames);
    const filters = stages.reduce((sum, stage) => sum + 2 * halfBandBytes(stage), 0);
    const room = openRoom(roomBytes(...sizes.map((size) => 8 * size)) + filters);
    const levels = sizes.map((size) => room.doubles(size));
    const up = stages.map((stage, n) => halfBandArrays(stage, levels[n], levels[n + 1], room));
    const down = stages.map((stage, n) => halfBandArrays(stage, levels[n + 1], levels[n], room));
    this.#base = levels[0];
    this.#states = [...up, ...down].map(({ states }) => states);
    this.#up = up.map((arrays) => room.loops.double(arrays));
    this.#down = down.map((arrays) => room.loops.halve(arrays));
    this.#bend = room.loops.bend(levels[3], drive, asymmetry);
  }

  process(input: Float32Array, output: Float32Array, frames: number): void {
    const base = this.#base;
    for (let done = 0, run = 0; done < frames; done += run) {
      if (this.#into === 0) for (const states of this.#states) flushSilent(states);
      run = Math.min(frames - done, runFrames - this.#into);
      for (let n = 0; n < run; n++) base[n] = input[done + n];
      for (let stage = 0; stage < 3; stage++) this.#up[stage](run << stage);
      this.#bend(run * oversampling);
      for (let stage = 2; stage >= 0; stage--) this.#down[stage](run << stage);
      for (let n = 0; n < run; n++) output[done + n] = base[n];
      this.#into = (this.#into + run) % runFrames;
    }
  }
}
