import type { Block } from "../dsp/kernel.js";
import type { PieceVisitor } from "./scanSound.js";
import { type ChannelFacts, crossEnergy } from "./takeCheck.js";
import { sidesNotice, type TakeChannel } from "./takeNotices.js";

/** Where a channel of a take goes, piece by piece. */
export interface ChannelStore {
  /** Room for the frames from `start` on. */
  room(start: number, frames: number): Float32Array;
  /** The room given last is filled. */
  keep(): void;
}

/** Keeps a channel in memory. */
export class MemoryStore implements ChannelStore {
  readonly samples: Float32Array;
  constructor(samples: Float32Array) {
    this.samples = samples;
  }
  room(start: number, frames: number): Float32Array {
    return this.samples.subarray(start, start + frames);
  }
  keep(): void {}
}

/** What of a stereo recording goes in, unless it is told: both sides where the instrument has two outputs, else their mean. */
export const usualTakeChannel = (outputs: 1 | 2): TakeChannel => (outputs === 2 ? "both" : "mean");

/** Channels that a take of so many has once it is taken in. */
export const takenChannels = (used: TakeChannel, channels: number): 1 | 2 =>
  used === "both" && channels === 2 ? 2 : 1;

/** Takes a recording of one or two channels in: both sides, their mean, or one of them. */
export class TakeIntake {
  /** Frames so far. */
  frames = 0;
  /** Nothing but zeros so far. */
  isSilent = true;
  readonly #used: TakeChannel;
  readonly #stores: readonly ChannelStore[];
  #cross = 0;

  /**
   * @param used    what of a stereo recording goes in; of no effect on a mono one
   * @param stores  as many as `takenChannels` says
   */
  constructor(used: TakeChannel, stores: readonly ChannelStore[]) {
    this.#used = used;
    this.#stores = stores;
  }

  /** Takes the next piece. */
  readonly add: PieceVisitor = (block, frames, start) => {
    this.#stores.forEach((store, n) => {
      const samples = store.room(start, frames);
      if (this.#stores.length === 2) samples.set(block[n].subarray(0, frames));
      else copyMono(block, frames, this.#used, samples);
      this.isSilent &&= samples.every((x) => x === 0);
      store.keep();
    });
    this.frames += frames;
    if (block.length === 2) this.#cross += crossEnergy(block, frames);
  };

  /** What a listener should know of the two sides. */
  notices(channels: readonly ChannelFacts[]): readonly string[] {
    const sides = channels.length === 2 ? sidesNotice(channels, this.#cross, this.#used) : null;
    return sides === null ? [] : [sides];
  }
}

function copyMono([left, right]: Block, frames: number, used: TakeChannel, output: Float32Array): void {
  if (right === undefined || used === "left" || used === "right") {
    output.set((right !== undefined && used === "right" ? right : left).subarray(0, frames));
  } else for (let n = 0; n < frames; n++) output[n] = (left[n] + right[n]) / 2;
}
