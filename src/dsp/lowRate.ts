import { FromRate, ToRate } from "./rateChange.js";
import { type RateRatio, rateRatio } from "./rateRatio.js";

/** A rate near `wantedHz`, below the sound's own: sound is taken there and back in two stages. */
export interface LowRate {
  readonly rateHz: number;
  /** To twice the low rate, then to the rate itself: the sharp filter then works where there are few frames. */
  readonly stages: readonly [RateRatio, RateRatio];
}

/** What lies above half the low rate is cut; the filter begins to fall at this share of the rate. */
const passbandShare = 0.37;
/** Places in a frame on which a sample of the first stage can fall: the rate is right to 1/64 of a frame. */
const parts = 64;

/** @param wantedHz at most 0.9 of `soundHz` */
export function lowRate(wantedHz: number, soundHz: number): LowRate {
  const steps = Math.round((parts * soundHz) / (2 * wantedHz));
  const framesPerSample = (2 * steps) / parts;
  const passband = passbandShare / framesPerSample;
  const stopband = Math.min(1.5 / framesPerSample, 1 - 0.5 / framesPerSample);
  return {
    rateHz: soundHz / framesPerSample,
    stages: [
      rateRatio({ steps, parts, passband, stopband }),
      rateRatio({ steps: 2, parts: 1, passband: passbandShare / 2, stopband: 0.25 }),
    ],
  };
}

/** Takes sound down to a low rate, in chunks of up to `mostFrames`. */
export class Lowering {
  readonly lagSeconds: number;
  readonly #first: ToRate;
  readonly #second: ToRate;
  readonly #between: Float64Array;
  constructor({ rateHz, stages: [first, second] }: LowRate, mostFrames: number) {
    this.#first = new ToRate(first);
    this.#second = new ToRate(second);
    const betweenHz = 2 * rateHz;
    const soundHz = (betweenHz * first.steps) / first.parts;
    this.lagSeconds = this.#first.lagFrames / soundHz + this.#second.lagFrames / betweenHz;
    this.#between = new Float64Array(Math.ceil((mostFrames * first.parts) / first.steps) + 1);
  }
  /** Where the samples of the stage between stand ready for `Raising`: how many the last call made. */
  betweenCount = 0;
  /** @returns how many samples it wrote */
  process(input: Float64Array, samples: Float64Array, frames: number): number {
    this.betweenCount = this.#first.process(input, this.#between, frames);
    return this.#second.process(this.#between, samples, this.betweenCount);
  }
}

/** Brings what `Lowering` took down up again, chunk by chunk with it. */
export class Raising {
  readonly lagSeconds: number;
  readonly #first: FromRate;
  readonly #second: FromRate;
  readonly #between: Float64Array;
  constructor({ rateHz, stages: [first, second] }: LowRate, mostFrames: number) {
    this.#first = new FromRate(first);
    this.#second = new FromRate(second);
    const betweenHz = 2 * rateHz;
    const soundHz = (betweenHz * first.steps) / first.parts;
    this.lagSeconds = this.#first.lagFrames / soundHz + this.#second.lagFrames / betweenHz;
    this.#between = new Float64Array(Math.ceil((mostFrames * first.parts) / first.steps) + 1);
  }
  /** @param betweenCount `Lowering.betweenCount` of the same chunk */
  process(samples: Float64Array, output: Float64Array, frames: number, betweenCount: number): void {
    this.#second.process(samples, this.#between, betweenCount);
    this.#first.process(this.#between, output, frames);
  }
}
