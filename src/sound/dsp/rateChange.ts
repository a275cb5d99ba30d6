import { FilterBank, Recent, weighted } from "./filterBank.js";
import type { RateRatio } from "./rateRatio.js";

/**
 * From frames to samples of another rate, a sample every steps / parts frames. A sample comes out with the first frame
 * that is `lagFrames` or more behind it, since the low-pass looks that far ahead.
 */
export class ToRate {
  readonly lagFrames: number;
  readonly #steps: number;
  readonly #parts: number;
  readonly #bank: FilterBank;
  readonly #recent: Recent;
  /** How far the frame just taken is behind the next sample and the lag, in parts of a frame; negative: not there yet. */
  #place: number;

  /** @param mostFrames  the most that one call of `process` gets */
  constructor({ steps, parts, halfFrames, lowPass }: RateRatio, mostFrames: number) {
    const lag = Math.ceil(halfFrames);
    this.lagFrames = lag;
    this.#steps = steps;
    this.#parts = parts;
    this.#bank = new FilterBank(parts, 2 * lag + 1, (place, age) => lowPass(lag - age + place / parts));
    this.#recent = new Recent(this.#bank.length, mostFrames);
    this.#place = -parts;
  }

  /** Takes `frames` frames. @returns how many samples it wrote */
  process(input: Float64Array, samples: Float64Array, frames: number): number {
    const { taps, length } = this.#bank;
    const { values } = this.#recent;
    const steps = this.#steps;
    const parts = this.#parts;
    let place = this.#place;
    let made = 0;
    for (let n = 0; n < frames; n++) values[length + n] = input[n];
    for (let n = 1; n <= frames; n++) {
      place += parts;
      while (place >= 0) {
        samples[made++] = weighted(taps, place * length, values, n, length);
        place -= steps;
      }
    }
    this.#place = place;
    this.#recent.keep(frames);
    return made;
  }
}

/** From samples of another rate back to frames, with the same ratio; it wants the samples that `ToRate` made with them. */
export class FromRate {
  readonly lagFrames: number;
  readonly #steps: number;
  readonly #parts: number;
  readonly #bank: FilterBank;
  readonly #recent: Recent;
  #place: number;

  /** @param mostFrames  the most that one call of `process` gives */
  constructor({ steps, parts, halfFrames, lowPass }: RateRatio, mostFrames: number) {
    const interval = steps / parts;
    const lag = Math.ceil(halfFrames / interval);
    this.lagFrames = lag * interval;
    this.#steps = steps;
    this.#parts = parts;
    this.#bank = new FilterBank(
      steps,
      2 * lag + 1,
      (place, age) => interval * lowPass((age - lag) * interval + place / parts),
    );
    this.#recent = new Recent(this.#bank.length, Math.ceil(mostFrames / interval) + 1);
    this.#place = -parts;
  }

  /** Gives `frames` frames. */
  process(samples: Float64Array, output: Float64Array, frames: number): void {
    const { taps, length } = this.#bank;
    const { values } = this.#recent;
    const steps = this.#steps;
    const parts = this.#parts;
    let place = this.#place;
    let taken = 0;
    for (let n = 0; n < frames; n++) {
      place += parts;
      while (place >= 0) {
        values[length + taken] = samples[taken];
        taken++;
        place -= steps;
      }
      output[n] = weighted(taps, (place + steps) * length, values, taken, length);
    }
    this.#place = place;
    this.#recent.keep(taken);
  }
}
