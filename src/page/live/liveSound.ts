import type { Wiring } from "../../rig/wiring/wiring.js";
import { dbToGain } from "../../sound/dsp/units.js";
import type { LevelReading } from "../../sound/measure/match.js";
import { matchedLevels } from "../../work/compare/matchedLevels.js";
import { type Reel, type ReelSpan, reelOf, spanFrames } from "../../work/compare/reel.js";
import type { NamedWiring, PlayedTrack } from "./engine/engineJobs.js";
import { mixerGains, openMixerOf, type SideGains, withMixerAtRest } from "./engine/openMixer.js";
import type { RenderedSound } from "./engine/renders.js";
import type { LivePlayer, PlayLevels } from "./player/livePlayer.js";
import { channelsOf, type PlayableSound, playableSound } from "./player/playableSound.js";
import { mixedSides, routingWav } from "./routingWav.js";
import type { PageRecording } from "./takeFiles/pageRecordings.js";

/** Hands what was rendered to the player, and keeps it for saving. */
export class LiveSound {
  readonly player: LivePlayer;
  #sound: PlayableSound | null = null;
  #recordings: readonly PageRecording[] = [];
  #levels: readonly NamedLevel[] = [];
  /** What each wiring's sound was made from, its open mixers left aside, by id. */
  #madeFrom: ReadonlyMap<string, string> = new Map();

  constructor(player: LivePlayer) {
    this.player = player;
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
    this.#levels = [...tracks, ...recordings].map(({ id, level }) => ({ id, ...level }));
    const levels = playLevels(this.#levels);
    if (this.#sound && !isNewTake && this.#isMadeFrom(wirings, frames, rateHz)) {
      this.turn(wirings);
      this.player.setLevels(levels);
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
      this.#madeFrom = new Map(wirings.map((named) => [named.id, restKey(named)]));
      this.player.load(this.#sound, levels, isNewTake);
    }
    const sound = this.#sound;
    return tracks.map(({ id }) => channelsOf(sound, id));
  }

  /** Frames of what is played; 0 where there is nothing yet. */
  get frames(): number {
    return this.#sound?.frames ?? 0;
  }

  #isMadeFrom(wirings: readonly NamedWiring[], frames: number, rateHz: number): boolean {
    const madeFrom = [...this.#madeFrom.keys()];
    return (
      this.#sound?.frames === frames &&
      this.#sound.rateHz === rateHz &&
      wirings.length === madeFrom.length &&
      wirings.every((named, n) => named.id === madeFrom[n] && this.plays(named))
    );
  }

  /** Whether this wiring is played as it is, but for the gains of an open mixer. */
  plays(named: NamedWiring): boolean {
    return this.#madeFrom.get(named.id) === restKey(named);
  }

  /** One choice as it is now; the others are as they were until they follow. */
  takeOne({ id, channels, level }: PlayedTrack, wiring: Wiring): void {
    const sound = this.#sound;
    if (sound?.choices.find((choice) => choice.id === id)?.voices.length !== channels.length) return;
    const parts = sound.choices.map((choice) =>
      choice.id === id
        ? {
            id,
            channels: channels.map((samples) => inLength(samples, sound.frames)),
            gains: gainsOf({ id, wiring }, channels.length),
          }
        : { id: choice.id, channels: channelsOf(sound, choice.id), gains: choice.voices },
    );
    this.#sound = playableSound(parts, sound.frames, sound.rateHz);
    this.#madeFrom = new Map([...this.#madeFrom, [id, restKey({ id, wiring })]]);
    this.#levels = this.#levels.map((known) => (known.id === id ? { id, ...level } : known));
    this.player.load(this.#sound, playLevels(this.#levels), false);
  }

  /** Levels as they were measured. */
  setLevels(sounds: readonly NamedLevel[]): void {
    this.#levels = [...sounds, ...this.#recordings.map(({ id, level }) => ({ id, ...level }))];
    this.player.setLevels(playLevels(this.#levels));
  }

  /** Moves the mixers of these wirings, where that is all it takes: heard at once. */
  turn(wirings: readonly NamedWiring[]): void {
    if (!this.#sound) return;
    const choices = this.#sound.choices.map((choice) => {
      const named = wirings.find(({ id }) => id === choice.id);
      const mixer = named && openMixerOf(named.wiring);
      if (!mixer || mixer.inputs.length !== choice.voices.length) return choice;
      const gains = mixerGains(named.wiring, mixer);
      this.player.setVoices(choice.id, gains);
      return { ...choice, voices: choice.voices.map(({ channel }, n) => ({ channel, ...gains[n] })) };
    });
    this.#sound = { ...this.#sound, choices };
  }

  /** A choice as a WAV file with the player's gain. @throws RangeError before it was rendered */
  wav(id: string): Blob {
    const choice = this.#sound?.choices.find((candidate) => candidate.id === id);
    if (!this.#sound || !choice) throw new RangeError(`"${id}" has not been rendered`);
    const { rateHz, frames } = this.#sound;
    const gain = dbToGain(this.player.gainDb(id));
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
      const gain = dbToGain(this.player.gainDb(id));
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

function restKey({ wiring }: NamedWiring): string {
  const mixer = openMixerOf(wiring);
  return JSON.stringify(mixer ? withMixerAtRest(wiring, mixer) : wiring);
}
