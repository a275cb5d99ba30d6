import type { SideGains } from "../engine/openMixer.js";
import { Fader } from "./ramp.js";
import type { SourceBank } from "./sourceBank.js";

/** What can be chosen: which channels of the sound it is made of, and what each gives to the two sides. */
export interface PlayableChoice {
  readonly id: string;
  readonly voices: readonly Voice[];
}
interface Voice extends SideGains {
  readonly channel: number;
}

/** One choice: its voices, its level, and whether it is heard. */
export class ChoiceStrip {
  readonly voices: readonly { readonly left: GainNode; readonly right: GainNode }[];
  readonly level: GainNode;
  readonly select: Fader;
  readonly output: AudioNode;
  constructor(context: BaseAudioContext, bank: SourceBank, choice: PlayableChoice, isSelected: boolean) {
    const sides = context.createChannelMerger(2);
    this.voices = choice.voices.map(({ channel, left, right }) => {
      const gains = { left: context.createGain(), right: context.createGain() };
      gains.left.gain.value = left;
      gains.right.gain.value = right;
      bank.connect(channel, gains.left);
      bank.connect(channel, gains.right);
      gains.left.connect(sides, 0, 0);
      gains.right.connect(sides, 0, 1);
      return gains;
    });
    this.level = context.createGain();
    const select = context.createGain();
    this.output = sides.connect(this.level).connect(select);
    this.select = new Fader(select.gain, isSelected ? 1 : 0);
  }
}
