import { FromRate, ToRate } from "./rateChange.js";
import { type RateRatio, rateRatio } from "./rateRatio.js";

/** A rate below the sound's own. Sound is taken there and back in two stages, by way of twice the low rate. */
export interface LowRate {
  readonly rateHz: number;
  /** From the sound's rate to twice the low rate, and from there to the low rate; the second filter is the sharp one. */
  readonly stages: readonly [RateRatio, RateRatio];
  /** What there and back take together. */
  readonly lagSeconds: number;
}

/** The filters begin to fall at this share of the low rate, and are down at half of it. */
const passbandShare = 0.37;
/** Places in a frame on which a sample of the first stage can fall: the rate is right to 1/64 of a frame. */
const parts = 64;

/** @param wantedHz at most 0.9 of `soundHz` */
export function lowRate(wantedHz: number, soundHz: number): LowRate {
  const steps = Math.round((parts * soundHz) / (2 * wantedHz));
  const framesPerSample = (2 * steps) / parts;
  const first = rateRatio({
    steps,
    parts,
    passband: passbandShare / framesPerSample,
    stopband: Math.min(1.5 / framesPerSample, 1 - 0.5 / framesPerSample),
  });
  const second = rateRatio({ steps: 2, parts: 1, passband: passbandShare / 2, stopband: 0.25 });
  const lagFrames = new ToRate(first, 0).lagFrames + new FromRate(first, 0).lagFrames;
  const lagBetween = new ToRate(second, 0).lagFrames + new FromRate(second, 0).lagFrames;
  return {
    rateHz: soundHz / framesPerSample,
    stages: [first, second],
    lagSeconds: (lagFrames + (lagBetween * steps) / parts) / soundHz,
  };
}

/** Takes sound down to a low rate, in chunks of up to `mostFrames`. */
export class Lowering {
  /** Samples that the last chunk made at twice the low rate: `Raising` must know. */
  betweenCount = 0;
  readonly #first: ToRate;
  readonly #second: ToRate;
  readonly #between: Float64Array;
  constructor({ stages: [first, second] }: LowRate, mostFrames: number) {
    this.#between = roomBetween(first, mostFrames);
    this.#first = new ToRate(first, mostFrames);
    this.#second = new ToRate(second, this.#between.length);
  }
  /** @returns how many samples it wrote */
  process(input: Float64Array, samples: Float64Array, frames: number): number {
    this.betweenCount = this.#first.process(input, this.#between, frames);
    return this.#second.process(this.#between, samples, this.betweenCount);
  }
}

/** Brings what `Lowering` took down up again, chunk by chunk with it. */
export class Raising {
  readonly #first: FromRate;
  readonly #second: FromRate;
  readonly #between: Float64Array;
  constructor({ stages: [first, second] }: LowRate, mostFrames: number) {
    this.#between = roomBetween(first, mostFrames);
    this.#first = new FromRate(first, mostFrames);
    this.#second = new FromRate(second, this.#between.length);
  }
  /** @param betweenCount `Lowering.betweenCount` of the same chunk */
  process(samples: Float64Array, output: Float64Array, frames: number, betweenCount: number): void {
    this.#second.process(samples, this.#between, betweenCount);
    this.#first.process(this.#between, output, frames);
  }
}

const roomBetween = ({ steps, parts }: RateRatio, mostFrames: number): Float64Array =>
  new Float64Array(Math.ceil((mostFrames * parts) / steps) + 1);
