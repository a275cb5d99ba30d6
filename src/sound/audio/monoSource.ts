import type { Block } from "../dsp/kernel.js";
import type { PieceVisitor } from "./scanSound.js";
import { type ChannelFacts, crossEnergy } from "./takeCheck.js";
import { sidesNotice, type TakeChannel } from "./takeNotices.js";

/** Where a mono source goes, piece by piece. */
export interface MonoStore {
  /** Room for the frames from `start` on. */
  room(start: number, frames: number): Float32Array;
  /** The room given last is filled. */
  keep(): void;
}

/** Keeps a mono source in memory. */
export class MemoryStore implements MonoStore {
  readonly samples: Float32Array;
  constructor(samples: Float32Array) {
    this.samples = samples;
  }
  room(start: number, frames: number): Float32Array {
    return this.samples.subarray(start, start + frames);
  }
  keep(): void {}
}

/** Collects a recording of one or two channels as one mono source: the mean of both sides, or one of them. */
export class MonoSource {
  /** Frames so far. */
  frames = 0;
  /** Nothing but zeros so far. */
  isSilent = true;
  readonly #channel: TakeChannel;
  readonly #store: MonoStore;
  #cross = 0;

  /** @param channel  which side of a stereo recording; of no effect on a mono one */
  constructor(channel: TakeChannel, store: MonoStore) {
    this.#channel = channel;
    this.#store = store;
  }

  /** Takes the next piece. */
  readonly add: PieceVisitor = (block, frames, start) => {
    const mono = this.#store.room(start, frames);
    copyMono(block, frames, this.#channel, mono);
    this.isSilent &&= mono.every((x) => x === 0);
    this.#store.keep();
    this.frames += frames;
    if (block.length === 2) this.#cross += crossEnergy(block, frames);
  };

  /** What a listener should know of the two sides. */
  notices(channels: readonly ChannelFacts[]): readonly string[] {
    const sides = channels.length === 2 ? sidesNotice(channels, this.#cross, this.#channel) : null;
    return sides === null ? [] : [sides];
  }
}

function copyMono([left, right]: Block, frames: number, channel: TakeChannel, output: Float32Array): void {
  if (right === undefined || channel !== "mean") {
    const used = right !== undefined && channel === "right" ? right : left;
    output.set(used.subarray(0, frames));
  } else for (let n = 0; n < frames; n++) output[n] = (left[n] + right[n]) / 2;
}
