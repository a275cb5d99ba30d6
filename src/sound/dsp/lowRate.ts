import { type Room, roomBytes } from "../loops/room.js";
import { FromRate, fromRateBytes, lagThereAndBack, mostSamples, ToRate, toRateBytes } from "./rateChange.js";
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
  const lagFrames = lagThereAndBack(first);
  const lagBetween = lagThereAndBack(second);
  return {
    rateHz: soundHz / framesPerSample,
    stages: [first, second],
    lagSeconds: (lagFrames + (lagBetween * steps) / parts) / soundHz,
  };
}

/** Takes sound down to a low rate, in chunks of up to `mostFrames`. */
export class Lowering {
  /** What the last chunk made, at the low rate; so much of it counts. */
  readonly samples: Float64Array;
  sampleCount = 0;
  /** Samples that it made at twice the low rate: `Raising` must know. */
  betweenCount = 0;
  readonly #first: ToRate;
  readonly #second: ToRate;
  readonly #between: Float64Array;
  constructor({ stages: [first, second] }: LowRate, mostFrames: number, room: Room) {
    this.#between = room.doubles(mostSamples(first, mostFrames));
    this.samples = room.doubles(mostSamples(second, this.#between.length));
    this.#first = new ToRate(first, mostFrames, this.#between, room);
    this.#second = new ToRate(second, this.#between.length, this.samples, room);
  }
  /** Takes `frames` frames of the input, from `from` on. */
  process(input: Float32Array, from: number, frames: number): void {
    this.betweenCount = this.#first.process(input, from, frames);
    this.sampleCount = this.#second.process(this.#between, 0, this.betweenCount);
  }
}

/** Brings what `Lowering` took down up again, chunk by chunk with it. */
export class Raising {
  /** To be filled with as many samples as the chunk has at the low rate. */
  readonly samples: Float64Array;
  /** What comes back of them. */
  readonly sound: Float64Array;
  readonly #first: FromRate;
  readonly #second: FromRate;
  constructor({ stages: [first, second] }: LowRate, mostFrames: number, room: Room) {
    const between = room.doubles(mostSamples(first, mostFrames));
    this.samples = room.doubles(mostSamples(second, between.length));
    this.sound = room.doubles(mostFrames);
    this.#first = new FromRate(first, mostFrames, between, this.sound, room);
    this.#second = new FromRate(second, between.length, this.samples, between, room);
  }
  /** @param betweenCount `Lowering.betweenCount` of the same chunk */
  process(frames: number, betweenCount: number): void {
    this.#second.process(betweenCount);
    this.#first.process(frames);
  }
}

/** What a `Lowering` takes in a room. */
export const loweringBytes = ({ stages: [first, second] }: LowRate, mostFrames: number): number => {
  const between = mostSamples(first, mostFrames);
  const arrays = roomBytes(8 * between, 8 * mostSamples(second, between));
  return arrays + toRateBytes(first, mostFrames) + toRateBytes(second, between);
};

/** What a `Raising` takes in a room. */
export const raisingBytes = ({ stages: [first, second] }: LowRate, mostFrames: number): number => {
  const between = mostSamples(first, mostFrames);
  const arrays = roomBytes(8 * between, 8 * mostSamples(second, between), 8 * mostFrames);
  return arrays + fromRateBytes(first, mostFrames) + fromRateBytes(second, between);
};
