import type { RateRun } from "../loops/rates.js";
import type { Room } from "../loops/room.js";
import { FilterBank, filterBankBytes, Recent } from "./filterBank.js";
import type { RateRatio } from "./rateRatio.js";

/**
 * From frames to samples of another rate, a sample every steps / parts frames. A sample comes out with the first frame
 * that is half the low-pass or more behind it, since the low-pass looks that far ahead.
 */
export class ToRate {
  readonly #steps: number;
  readonly #parts: number;
  readonly #recent: Recent;
  readonly #run: RateRun;
  #place: number;

  /**
   * @param mostFrames  the most that one call of `process` gets
   * @param samples     where it writes, of the room
   */
  constructor(ratio: RateRatio, mostFrames: number, samples: Float64Array, room: Room) {
    const { steps, parts, lowPass } = ratio;
    const lag = lagOfToRate(ratio);
    const { taps, length } = new FilterBank(parts, 2 * lag + 1, room, (place, age) =>
      lowPass(lag - age + place / parts),
    );
    this.#steps = steps;
    this.#parts = parts;
    this.#recent = new Recent(length, mostFrames, room);
    this.#run = room.loops.rateDown({ taps, length, values: this.#recent.values, samples, steps, parts });
    this.#place = -parts;
  }

  /** Takes `frames` frames. @returns how many samples it wrote */
  process(input: Float64Array | Float32Array, from: number, frames: number): number {
    this.#recent.take(input, from, frames);
    const made = this.#run(frames, this.#place);
    this.#place += frames * this.#parts - made * this.#steps;
    this.#recent.keep(frames);
    return made;
  }
}

/** From samples of another rate back to frames, with the same ratio; it wants the samples that `ToRate` made with them. */
export class FromRate {
  readonly #steps: number;
  readonly #parts: number;
  readonly #recent: Recent;
  readonly #run: RateRun;
  #place: number;

  /**
   * @param mostFrames  the most that one call of `process` gives
   * @param samples     where it reads, of the room
   * @param output      where it writes, of the room
   */
  constructor(ratio: RateRatio, mostFrames: number, samples: Float64Array, output: Float64Array, room: Room) {
    const { steps, parts, lowPass } = ratio;
    const interval = steps / parts;
    const lag = lagOfFromRate(ratio);
    const { taps, length } = new FilterBank(
      steps,
      2 * lag + 1,
      room,
      (place, age) => interval * lowPass((age - lag) * interval + place / parts),
    );
    this.#steps = steps;
    this.#parts = parts;
    this.#recent = new Recent(length, mostSamples(ratio, mostFrames), room);
    const { values } = this.#recent;
    this.#run = room.loops.rateUp({ taps, length, values, samples, steps, parts }, output);
    this.#place = -parts;
  }

  /** Gives `frames` frames. */
  process(frames: number): void {
    const taken = this.#run(frames, this.#place);
    this.#place += frames * this.#parts - taken * this.#steps;
    this.#recent.keep(taken);
  }
}

/** How far the low-pass looks ahead: on the way there in frames, on the way back in samples. */
const lagOfToRate = ({ halfFrames }: RateRatio): number => Math.ceil(halfFrames);
const lagOfFromRate = ({ halfFrames, steps, parts }: RateRatio): number =>
  Math.ceil(halfFrames / (steps / parts));

/** What both ways together come late, in frames. */
export const lagThereAndBack = (ratio: RateRatio): number =>
  lagOfToRate(ratio) + lagOfFromRate(ratio) * (ratio.steps / ratio.parts);

/** The most samples that belong to so many frames. */
export const mostSamples = ({ steps, parts }: RateRatio, frames: number): number =>
  Math.ceil((frames * parts) / steps) + 1;

/** What a `ToRate` takes in a room. */
export const toRateBytes = (ratio: RateRatio, mostFrames: number): number =>
  filterBankBytes(ratio.parts, 2 * lagOfToRate(ratio) + 1, mostFrames);

/** What a `FromRate` takes in a room. */
export const fromRateBytes = (ratio: RateRatio, mostFrames: number): number =>
  filterBankBytes(ratio.steps, 2 * lagOfFromRate(ratio) + 1, mostSamples(ratio, mostFrames));
