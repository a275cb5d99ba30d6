import { modelOf } from "../../rig/pedals/models.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import type { Block } from "../../sound/dsp/kernel.js";
import type { OpenOffline } from "../../sound/standard/loop.js";
import type { Quirks } from "../../sound/standard/quirks.js";
import type { GivenEffect } from "./buildWiring.js";
import { insideByEngine } from "./byEngine.js";
import { byStandardNodes } from "./byStandardNodes.js";
import type { CheckedSound } from "./checkedSound.js";
import { type Difference, differenceOf } from "./difference.js";
import { type JudgedEffect, judgedEffects } from "./judgedEffects.js";
import { heardBy, ownResponse, type Taps } from "./ownResponse.js";

export interface SecondEngineOptions {
  readonly sound: CheckedSound;
  /** How long it plays. */
  readonly frames: number;
  readonly openContext: OpenOffline;
  readonly quirks: Quirks;
  /** The most that convolvers of one render may have to do: frames of sound times frames of response. */
  readonly mostConvolved: number;
  /** What is built in a wiring's place. */
  readonly built: (wiring: Wiring) => Wiring;
}

/** A wiring by the second engine. */
export interface Second {
  /** Left and right. */
  readonly played: Block;
  readonly effects: readonly JudgedEffect[];
  /** How far the two engines are apart in what effects hear that are handed over. */
  readonly heardApart: Difference;
  /** RMS of the loudest signal inside. */
  readonly loudestDbfs: number;
}

/** Renders as memory allows. */
const mostKept = 3;

/** Renders wirings as standard nodes. */
export class SecondEngine {
  readonly #options: SecondEngineOptions;
  /** The latest renders: a wiring with one unit is its own twin. */
  readonly #last = new Map<string, Promise<Second>>();
  readonly #responses = new Map<string, Taps>();

  constructor(options: SecondEngineOptions) {
    this.#options = options;
  }

  /** To be compared: all of it, or from its start as much as convolvers can do. */
  compared(wiring: Wiring): Promise<Second> {
    const effects = this.#effects(wiring);
    return this.#once(wiring, this.#affordable(effects), effects);
  }

  /** To be measured: all of it, left and right. Where convolvers cannot do that, what they would is handed over. */
  async played(wiring: Wiring): Promise<Block> {
    const { frames } = this.#options;
    const effects = this.#effects(wiring);
    const spared = effects.map(
      (effect): JudgedEffect =>
        this.#convolvedFrames(effect, frames) > 0 ? { ...effect, by: "hand-over" } : effect,
    );
    const isLong = this.#affordable(effects) < frames;
    return (await this.#once(wiring, frames, isLong ? spared : effects)).played;
  }

  #effects(wiring: Wiring): readonly JudgedEffect[] {
    return judgedEffects(wiring, this.#options.sound.rateHz, this.#options.quirks);
  }

  #affordable(effects: readonly JudgedEffect[]): number {
    const { frames, mostConvolved } = this.#options;
    for (let count = frames; ; count = Math.floor(0.95 * count)) {
      const taps = effects.reduce((sum, effect) => sum + this.#convolvedFrames(effect, count), 0);
      if (count * taps <= mostConvolved) return count;
    }
  }

  /** Frames of response that an effect is convolved with in a render of so many; 0 where it has none or short ones. */
  #convolvedFrames({ box, by }: JudgedEffect, frames: number): number {
    const { rateHz, clips } = this.#options.sound;
    const { pedal, outputs } = box;
    const heard = (taps: readonly Float32Array[]) =>
      taps.reduce((sum, { length }) => sum + Math.min(length, frames), 0);
    if (by === "response") return heard(this.#responseOf(box).flat());
    const { standard } = modelOf(pedal.model);
    if (by === "hand-over" || typeof standard === "string") return 0;
    return heard(
      standard.convolvers?.(pedal.settings, { rateHz, clips, inputs: heardBy(box), outputs }) ?? [],
    );
  }

  #responseOf(box: PedalBox): Taps {
    const { pedal, outputs } = box;
    const key = JSON.stringify([pedal.model, pedal.settings, heardBy(box), outputs]);
    const known = this.#responses.get(key) ?? ownResponse(box, this.#options.sound, this.#options.frames);
    this.#responses.set(key, known);
    return known;
  }

  #once(wiring: Wiring, frames: number, effects: readonly JudgedEffect[]): Promise<Second> {
    const key = JSON.stringify([wiring, frames, effects.map(({ by }) => by)]);
    const known = this.#last.get(key) ?? this.#rendered(wiring, frames, effects);
    this.#last.delete(key);
    this.#last.set(key, known);
    for (const oldest of [...this.#last.keys()].slice(0, -mostKept)) this.#last.delete(oldest);
    return known;
  }

  async #rendered(wiring: Wiring, frames: number, effects: readonly JudgedEffect[]): Promise<Second> {
    const { sound, openContext, quirks, built } = this.#options;
    const handed = effects.flatMap(({ box, by }) => (by === "hand-over" ? [box] : []));
    const inside = insideByEngine(wiring, handed, sound, frames);
    const second = built(wiring);
    const given = new Map<string, GivenEffect>();
    for (const box of second.boxes) {
      const by = effects.find((effect) => effect.box.id === box.id)?.by;
      if (box.kind !== "pedal" || by === undefined || by === "nodes") continue;
      if (by === "response") given.set(box.id, { by, taps: cut(this.#responseOf(box), frames) });
      else given.set(box.id, { by, sound: inside.effects.get(box.id)?.gives ?? [] });
    }
    const use = {
      clips: sound.clips,
      loopLateFrames: quirks.loopLateFrames,
      frames,
      effects: given,
      openContext,
    };
    const [left, right, ...heard] = await byStandardNodes(second, sound.take, sound.rateHz, use);
    const ours = [...inside.effects.values()].flatMap((effect) => effect.heard);
    return {
      played: [left, right],
      effects,
      heardApart: ours.length > 0 ? differenceOf(ours, heard) : { rmsDbfs: null, peakDbfs: null },
      loudestDbfs: inside.loudestDbfs,
    };
  }
}

const cut = (taps: Taps, frames: number): Taps =>
  taps.map((row) => row.map((each) => each.subarray(0, frames)));
