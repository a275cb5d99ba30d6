import type { Block } from "../dsp/kernel.js";
import type { PieceVisitor } from "./scanSound.js";
import { type ChannelFacts, crossEnergy } from "./takeCheck.js";
import { sidesNotice, type TakeChannel } from "./takeNotices.js";

/** Collects a recording of one or two channels as one mono source: the mean of both sides, or one of them. */
export class MonoSource {
  readonly samples: Float32Array;
  readonly #channel: TakeChannel;
  #cross = 0;

  /**
   * @param channel  which side of a stereo recording; of no effect on a mono one
   * @param samples  where the source goes, as long as the recording
   */
  constructor(channel: TakeChannel, samples: Float32Array) {
    this.#channel = channel;
    this.samples = samples;
  }

  /** Takes the next piece. */
  readonly add: PieceVisitor = (block, frames, start) => {
    copyMono(block, frames, this.#channel, this.samples.subarray(start, start + frames));
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
