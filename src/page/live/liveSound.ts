import { dbToGain } from "../../sound/dsp/units.js";
import type { LevelReading } from "../../sound/measure/match.js";
import { matchedLevels } from "../../work/compare/matchedLevels.js";
import { type Reel, type ReelSpan, reelOf, spanFrames } from "../../work/compare/reel.js";
import type { NamedWiring } from "./engine/engineJobs.js";
import { mixerGains, openMixerOf, type SideGains, withMixerAtRest } from "./engine/openMixer.js";
import type { RenderedSound } from "./engine/renders.js";
import type { LivePlayer, PlayLevels } from "./player/livePlayer.js";
import { channelsOf, type PlayableSound, playableSound } from "./player/playableSound.js";
import { mixedSides, routingWav } from "./routingWav.js";
import type { PageRecording } from "./takeFiles/pageRecordings.js";

/** Hands what was rendered to the player, and keeps it for saving. */
export class LiveSound {
  readonly #player: LivePlayer;
  #sound: PlayableSound | null = null;
  #recordings: readonly PageRecording[] = [];
  /** What the sound was made from, its open mixers left aside. */
  #key = "";

  constructor(player: LivePlayer) {
    this.#player = player;
  }

  /**
   * Plays this from now on. A sound that differs in nothing but the gains of open mixers goes on as it is.
   * @returns the channels of each wiring, in memory that is kept anyway
   */
  take(
    rendered: RenderedSound,
    rateHz: number,
    isNewTake: boolean,
    recordings: readonly PageRecording[],
  ): readonly (readonly Float32Array[])[] {
    const { wirings, tracks, frames } = rendered;
    this.#recordings = recordings;
    const levels = playLevels([...tracks, ...recordings].map(({ id, level }) => ({ id, ...level })));
    const key = JSON.stringify([frames, rateHz, wirings.map(restKey)]);
    if (this.#sound && key === this.#key && !isNewTake) {
      this.turn(wirings);
      this.#player.setLevels(levels);
    } else {
      const parts = tracks.map(({ id, channels }, n) => ({
        id,
        channels,
        gains: gainsOf(wirings[n], channels.length),
      }));
      const recorded = recordings.map(({ id, channels }) => ({
        id,
        channels: channels.map((samples) => inLength(samples, frames)),
        gains: sides,
      }));
      this.#sound = playableSound([...parts, ...recorded], frames, rateHz);
      this.#key = key;
      this.#player.load(this.#sound, levels, isNewTake);
    }
    const sound = this.#sound;
    return tracks.map(({ id }) => channelsOf(sound, id));
  }

  /** Levels as they were measured. */
  setLevels(sounds: readonly NamedLevel[]): void {
    const recorded = this.#recordings.map(({ id, level }) => ({ id, ...level }));
    this.#player.setLevels(playLevels([...sounds, ...recorded]));
  }

  /** Moves the mixers of these wirings, where that is all it takes: heard at once. */
  turn(wirings: readonly NamedWiring[]): void {
    if (!this.#sound) return;
    const choices = this.#sound.choices.map((choice) => {
      const named = wirings.find(({ id }) => id === choice.id);
      const mixer = named && openMixerOf(named.wiring);
      if (!mixer || mixer.inputs.length !== choice.voices.length) return choice;
      const gains = mixerGains(named.wiring, mixer);
      this.#player.setVoices(choice.id, gains);
      return { ...choice, voices: choice.voices.map(({ channel }, n) => ({ channel, ...gains[n] })) };
    });
    this.#sound = { ...this.#sound, choices };
  }

  /** A choice as a WAV file with the player's gain. @throws RangeError before it was rendered */
  wav(id: string): Blob {
    const choice = this.#sound?.choices.find((candidate) => candidate.id === id);
    if (!this.#sound || !choice) throw new RangeError(`"${id}" has not been rendered`);
    const { rateHz, frames } = this.#sound;
    const gain = dbToGain(this.#player.gainDb(id));
    return routingWav(channelsOf(this.#sound, id), choice.voices, { rateHz, frames, gain });
  }

  /** Choices one after the other, each with the player's gain; null before they were rendered. */
  reel(labels: ReadonlyMap<string, string>, span: ReelSpan): Reel | null {
    const sound = this.#sound;
    if (!sound) return null;
    const { rateHz, frames } = sound;
    const { from, to } = spanFrames(span, rateHz, frames);
    const parts = sound.choices.flatMap(({ id, voices }) => {
      const label = labels.get(id);
      if (label === undefined) return [];
      const channels = channelsOf(sound, id).map((samples) => samples.subarray(from, to));
      const gain = dbToGain(this.#player.gainDb(id));
      const sides = mixedSides(channels, voices, to - from);
      return [{ label, channels: sides.map((side) => side.map((x) => gain * x)) }];
    });
    return reelOf(parts, rateHz);
  }
}

type NamedLevel = { readonly id: string } & LevelReading;

function playLevels(sounds: readonly NamedLevel[]): PlayLevels {
  return {
    matchedDb: matchedLevels(sounds, true).gainDb,
    asWiredDb: [...matchedLevels(sounds, false).gainDb.values()][0] ?? 0,
  };
}

const both: SideGains = { left: 1, right: 1 };
const sides: readonly SideGains[] = [
  { left: 1, right: 0 },
  { left: 0, right: 1 },
];

/** Cut, or with silence behind it. */
function inLength(samples: Float32Array, frames: number): Float32Array {
  if (samples.length >= frames) return samples;
  const longer = new Float32Array(frames);
  longer.set(samples);
  return longer;
}

function gainsOf({ wiring }: NamedWiring, channels: number): readonly SideGains[] {
  const mixer = openMixerOf(wiring);
  if (mixer) return mixerGains(wiring, mixer);
  return channels === 1 ? [both] : sides;
}

function restKey({ id, wiring }: NamedWiring): readonly unknown[] {
  const mixer = openMixerOf(wiring);
  return [id, mixer ? withMixerAtRest(wiring, mixer) : wiring];
}
