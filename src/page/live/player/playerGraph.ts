import type { SideGains } from "../engine/openMixer.js";
import { ChoiceStrip, type PlayableChoice } from "./choiceStrip.js";
import { Fold } from "./fold.js";
import { Fader, glide } from "./ramp.js";
import { SourceBank } from "./sourceBank.js";

/** Length of the crossfade from one choice to the next. */
export const crossfadeSeconds = 0.02;
/** A blind switch: out, nothing, in. */
export const blindFadeSeconds = 0.05;
export const blindPauseSeconds = 0.3;

/**
 * Everything between the channels of the renders and the loudspeakers, as standard audio nodes: all choices run at
 * once on one clock, and gains decide which is heard. Times are in seconds of the context; all of it works in an
 * offline context too.
 *
 *     sources > voices: gain to each side > choice: level, select > fold > blind > volume > out
 */
export class PlayerGraph {
  readonly bank: SourceBank;
  readonly #context: BaseAudioContext;
  readonly #strips: ReadonlyMap<string, ChoiceStrip>;
  readonly #fold: Fold;
  readonly #blind: Fader;
  readonly #volume: GainNode;
  #selected: string;

  /** @param selected  the choice that is heard first */
  constructor(
    context: BaseAudioContext,
    channels: number,
    choices: readonly PlayableChoice[],
    selected: string,
  ) {
    this.#context = context;
    this.bank = new SourceBank(context, channels);
    this.#fold = new Fold(context);
    this.#strips = new Map(
      choices.map((choice) => {
        const strip = new ChoiceStrip(context, this.bank, choice, choice.id === selected);
        strip.output.connect(this.#fold.input);
        return [choice.id, strip];
      }),
    );
    this.#selected = selected;
    const blind = context.createGain();
    this.#volume = context.createGain();
    this.#fold.output.connect(blind).connect(this.#volume).connect(context.destination);
    this.#blind = new Fader(blind.gain, 1);
  }

  /** Crossfades to another choice. Equal gain, not equal power: renders share the dry sound, which must not swell. */
  select(id: string, at: number): void {
    this.#switch(id, at, crossfadeSeconds);
  }

  /** Fades out, changes to `id` while nothing sounds, and fades in; the same in every case, also onto the same choice. */
  selectBlind(id: string, at: number): void {
    const silentAt = this.#blind.to(0, at, blindFadeSeconds);
    this.#switch(id, silentAt, 0);
    this.#blind.to(1, silentAt + blindPauseSeconds, blindFadeSeconds);
  }

  /** Gain of a choice, over the time of a crossfade. */
  setLevel(id: string, gain: number, at: number): void {
    const level = this.#strip(id).level.gain;
    glide(level, gain, at);
  }

  /** What each voice of a choice gives to the sides: a turn of the mixer, heard at once. */
  setVoices(id: string, gains: readonly SideGains[], at: number): void {
    this.#strip(id).voices.forEach(({ left, right }, n) => {
      glide(left.gain, gains[n].left, at);
      glide(right.gain, gains[n].right, at);
    });
  }

  setFolded(on: boolean, at: number): void {
    this.#fold.set(on, at);
  }

  setVolume(gain: number, at: number): void {
    glide(this.#volume.gain, gain, at);
  }

  /** All gains at rest, for a graph that has not sounded yet: no glide is heard at the start. */
  preset({
    volume,
    levels,
    folded,
  }: {
    volume: number;
    levels: ReadonlyMap<string, number>;
    folded: boolean;
  }) {
    this.#volume.gain.value = volume;
    for (const [id, gain] of levels) this.#strip(id).level.gain.value = gain;
    this.#fold.preset(folded);
  }

  #switch(id: string, at: number, seconds: number): void {
    const from = this.#strip(this.#selected).select;
    const to = this.#strip(id).select;
    this.#selected = id;
    if (from === to) return;
    const begin = Math.max(at, from.endsAt, to.endsAt, this.#context.currentTime);
    from.to(0, begin, seconds);
    to.to(1, begin, seconds);
  }

  #strip(id: string): ChoiceStrip {
    const strip = this.#strips.get(id);
    if (!strip) throw new RangeError(`no choice "${id}" in this player`);
    return strip;
  }
}
