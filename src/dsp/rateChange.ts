import { FilterBank, Recent } from "./filterBank.js";
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

  constructor({ steps, parts, halfFrames, lowPass }: RateRatio) {
    const lag = Math.ceil(halfFrames);
    this.lagFrames = lag;
    this.#steps = steps;
    this.#parts = parts;
    this.#bank = new FilterBank(parts, 2 * lag + 1, (place, age) => lowPass(lag - age + place / parts));
    this.#recent = new Recent(this.#bank.length);
    this.#place = -parts;
  }

  /** Takes `frames` frames. @returns how many samples it wrote */
  process(input: Float64Array, samples: Float64Array, frames: number): number {
    const recent = this.#recent;
    const steps = this.#steps;
    let place = this.#place;
    let made = 0;
    for (let n = 0; n < frames; n++) {
      recent.write(input[n]);
      place += this.#parts;
      while (place >= 0) {
        samples[made++] = this.#bank.sum(place, recent);
        place -= steps;
      }
    }
    this.#place = place;
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

  constructor({ steps, parts, halfFrames, lowPass }: RateRatio) {
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
    this.#recent = new Recent(this.#bank.length);
    this.#place = -parts;
  }

  /** Gives `frames` frames. */
  process(samples: Float64Array, output: Float64Array, frames: number): void {
    const recent = this.#recent;
    const steps = this.#steps;
    let place = this.#place;
    let taken = 0;
    for (let n = 0; n < frames; n++) {
      place += this.#parts;
      while (place >= 0) {
        recent.write(samples[taken++]);
        place -= steps;
      }
      output[n] = this.#bank.sum(place + steps, recent);
    }
    this.#place = place;
  }
}
