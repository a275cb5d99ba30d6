import { glide } from "./ramp.js";

/** Stereo, or (left + right) / 2 on both sides. */
export class Fold {
  readonly input: AudioNode;
  readonly output: AudioNode;
  readonly #straight: readonly GainNode[];
  readonly #crossed: readonly GainNode[];
  constructor(context: BaseAudioContext) {
    const input = context.createGain();
    input.channelCount = 2;
    input.channelCountMode = "explicit";
    const splitter = context.createChannelSplitter(2);
    const merger = context.createChannelMerger(2);
    const path = (from: number, to: number, gain: number): GainNode => {
      const node = context.createGain();
      node.gain.value = gain;
      splitter.connect(node, from);
      node.connect(merger, 0, to);
      return node;
    };
    this.#straight = [path(0, 0, 1), path(1, 1, 1)];
    this.#crossed = [path(0, 1, 0), path(1, 0, 0)];
    input.connect(splitter);
    this.input = input;
    this.output = merger;
  }
  set(on: boolean, at: number): void {
    for (const { gain } of this.#straight) glide(gain, on ? 0.5 : 1, at);
    for (const { gain } of this.#crossed) glide(gain, on ? 0.5 : 0, at);
  }
  preset(on: boolean): void {
    for (const { gain } of this.#straight) gain.value = on ? 0.5 : 1;
    for (const { gain } of this.#crossed) gain.value = on ? 0.5 : 0;
  }
}
