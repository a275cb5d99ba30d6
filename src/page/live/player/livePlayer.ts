import { dryId } from "../../../rig/wiring/dryWiring.js";
import { dbToGain } from "../../../sound/dsp/units.js";
import { leastVolumeDb, type Player } from "../../contract/player.js";
import type { SideGains } from "../engine/openMixer.js";
import { mixedSides } from "../routingWav.js";
import { BlindSwitch } from "./blindSwitch.js";
import { loopGainsDb } from "./loopLevels.js";
import { inFrames, withinLength } from "./loopRange.js";
import { channelsOf, type PlayableSound } from "./playableSound.js";
import { type LoopFrames, Playback } from "./playback.js";
import { tellWhenSilent } from "./silentDevice.js";

/** Gains that are given to the choices. */
export interface PlayLevels {
  /** To bring all to one loudness, dB, by id. */
  readonly matchedDb: ReadonlyMap<string, number>;
  /** One for all, dB. */
  readonly asWiredDb: number;
}

/** What gains within a loop were worked out from, and what came out. */
interface Looped extends LoopFrames {
  readonly sound: PlayableSound;
  readonly levels: PlayLevels;
  readonly folded: boolean;
  readonly gainsDb: ReadonlyMap<string, number>;
}

/** Moderate: half as loud as full, or less. */
const firstVolumeDb = -12;
/** The audio device rests when nothing has been played for so long. */
const restAfterMs = 3000;

/** The player of the page. Nothing sounds before `play` was called, which must be in a gesture. */
export class LivePlayer implements Player {
  choices: readonly string[];
  readonly #onChange: () => void;
  readonly #onSilent: () => void;
  readonly #blind = new BlindSwitch();
  #chosen: string;
  #sound: PlayableSound | null = null;
  #levels: PlayLevels = { matchedDb: new Map(), asWiredDb: 0 };
  #playback: Playback | null = null;
  /** Where it stands while nothing plays. */
  #frame = 0;
  #loop: Player["loop"] = { on: false, from: 0, to: 0 };
  #matched = true;
  #folded = false;
  #volumeDb = firstVolumeDb;
  /** Gains within the loop, as they were worked out last. */
  #looped: Looped | null = null;
  /** Asked to play before there was anything to play. */
  #wanted = false;
  /** Until somebody has chosen or played. */
  #isUntouched = true;

  /** `onSilent`: what was asked to play does not, for want of a device. */
  constructor(choices: readonly string[], onChange: () => void, onSilent: () => void) {
    this.choices = choices;
    this.#onSilent = onSilent;
    this.#chosen = choices[0];
    this.#onChange = onChange;
  }

  get chosen(): string {
    return this.#chosen;
  }
  get playing(): boolean {
    return this.#playback?.running ?? false;
  }
  get position(): number {
    if (!this.#sound) return 0;
    const frame = this.#playback?.running ? this.#playback.heardFrame : this.#frame;
    return frame / this.#sound.rateHz;
  }
  get lengthSeconds(): number {
    return this.#sound ? this.#sound.frames / this.#sound.rateHz : 0;
  }
  get loop(): Player["loop"] {
    return this.#loop;
  }
  get matched(): boolean {
    return this.#matched;
  }
  get folded(): boolean {
    return this.#folded;
  }
  get volumeDb(): number {
    return this.#volumeDb;
  }

  gainDb(id: string): number {
    return this.#matched ? (this.#levels.matchedDb.get(id) ?? 0) : this.#levels.asWiredDb;
  }

  play(): void {
    this.#isUntouched = false;
    if (!this.#begin()) return;
    if (!this.playing) this.#startAt(this.#frame);
    this.#onChange();
  }

  pause(): void {
    this.#wanted = false;
    const playback = this.#playback;
    if (!playback?.running) return;
    this.#frame = playback.stop();
    setTimeout(() => {
      const { context, running } = playback;
      if (!running && context.state !== "closed") void context.suspend();
    }, restAfterMs);
    this.#onChange();
  }

  seek(seconds: number): void {
    if (!this.#sound) return;
    const frame = Math.round(seconds * this.#sound.rateHz);
    this.#frame = Math.max(0, Math.min(this.#sound.frames - 1, frame));
    if (this.playing) this.#startAt(this.#frame);
    this.#onChange();
  }

  choose(id: string): void {
    if (!this.choices.includes(id)) throw new RangeError(`no choice "${id}" to play`);
    this.#isUntouched = false;
    this.#chosen = id;
    const playback = this.#playback;
    if (playback) {
      const wasBlind = this.#blind.end();
      playback.graph.select(id, playback.soon());
      if (wasBlind) this.#applyLevels(this.#matched);
    }
    this.#onChange();
  }

  /** What to begin with, until somebody has chosen or played. */
  suggest(id: string): void {
    if (!this.#isUntouched || id === this.#chosen || !this.choices.includes(id)) return;
    this.#chosen = id;
    this.#onChange();
  }

  setLoop(change: Partial<{ on: boolean; from: number; to: number }>): void {
    this.#loop = withinLength({ ...this.#loop, ...change }, this.lengthSeconds);
    const playback = this.#playback;
    if (this.#blind.on) this.#applyLevels(true);
    if (playback?.running) this.#startAt(playback.frameAt(playback.soon()));
    this.#onChange();
  }

  setMatched(on: boolean): void {
    this.#matched = on;
    if (!this.#blind.on) this.#applyLevels(on);
    this.#onChange();
  }

  setFolded(on: boolean): void {
    this.#folded = on;
    if (this.#playback) this.#playback.graph.setFolded(on, this.#playback.soon());
    if (this.#blind.on) this.#applyLevels(true);
    this.#onChange();
  }

  setVolumeDb(db: number): void {
    this.#volumeDb = Math.max(leastVolumeDb, Math.min(0, db));
    if (this.#playback) this.#playback.graph.setVolume(dbToGain(this.#volumeDb), this.#playback.soon());
    this.#onChange();
  }

  playBlind(id: string): void {
    if (!this.choices.includes(id)) throw new RangeError(`no choice "${id}" to play`);
    if (!this.#begin()) return;
    const playback = this.#playback!;
    this.#blind.to(id, playback, (silentAt) => {
      this.#applyLevels(true, silentAt);
      if (!playback.running) this.#startAt(this.#frame, silentAt);
    });
    this.#onChange();
  }

  /** Sound to play from now on: in place of a sound of the same make without a gap, else from the beginning. */
  load(sound: PlayableSound, levels: PlayLevels, isNewTake: boolean): void {
    const before = this.#sound;
    this.#sound = sound;
    this.#levels = levels;
    const length = this.lengthSeconds;
    const toTheEnd = !before || isNewTake || this.#loop.to >= before.frames / before.rateHz;
    const asked = { ...this.#loop, ...(isNewTake ? { from: 0 } : {}), ...(toTheEnd ? { to: length } : {}) };
    this.#loop = withinLength(asked, length);
    this.#frame = isNewTake ? 0 : Math.min(this.#frame, sound.frames - 1);
    this.choices = [...sound.choices.map(({ id }) => id).filter((id) => id !== dryId), dryId];
    if (!this.choices.includes(this.#chosen)) this.#chosen = this.choices[0];
    const playback = this.#playback;
    if (playback && before && !isNewTake && makeOf(before) === makeOf(sound)) {
      playback.exchange(sound, this.#loopFrames());
      this.#applyLevels(this.#matched || this.#blind.on);
    } else if (playback) {
      this.#wanted = playback.running;
      playback.close();
      this.#playback = null;
      this.#blind.end();
    }
    if (this.#wanted) this.play();
    else this.#onChange();
  }

  setLevels(levels: PlayLevels): void {
    this.#levels = levels;
    this.#applyLevels(this.#matched || this.#blind.on);
    this.#onChange();
  }

  /** What each channel of a choice gives to the sides: heard within 50 ms. */
  setVoices(id: string, gains: readonly SideGains[]): void {
    const playback = this.#playback;
    playback?.graph.setVoices(id, gains, playback.soon());
  }

  /** True once there is a device to play on and something to play. */
  #begin(): boolean {
    const sound = this.#sound;
    this.#wanted = !sound;
    if (!sound) return false;
    if (!this.#playback) {
      this.#playback = new Playback(sound, this.#chosen, () => {
        this.#frame = 0;
        this.#onChange();
      });
      this.#playback.graph.preset({
        volume: dbToGain(this.#volumeDb),
        levels: new Map(this.choices.map((id) => [id, dbToGain(this.gainDb(id))])),
        folded: this.#folded,
      });
    }
    const { context } = this.#playback;
    void context.resume();
    tellWhenSilent(context, () => this.playing, this.#onSilent);
    return true;
  }

  #startAt(frame: number, at?: number): void {
    this.#playback?.start(frame, this.#loopFrames(), at);
  }

  #loopFrames(): LoopFrames | null {
    return this.#loop.on && this.#sound ? inFrames(this.#loop, this.#sound) : null;
  }

  #applyLevels(matched: boolean, at = this.#playback?.soon() ?? 0): void {
    const matchedDb = this.#blind.on ? this.#blindDb() : this.#levels.matchedDb;
    for (const id of this.choices) {
      const db = matched ? (matchedDb.get(id) ?? 0) : this.#levels.asWiredDb;
      this.#playback?.graph.setLevel(id, dbToGain(db), at);
    }
  }

  /** In a blind trial all are of one loudness in what is played: the loop where it is on, else the whole take. */
  #blindDb(): ReadonlyMap<string, number> {
    const sound = this.#sound;
    const loop = this.#loopFrames();
    const { matchedDb } = this.#levels;
    if (!sound || !loop) return matchedDb;
    const { from, to } = loop;
    const folded = this.#folded;
    const known = this.#looped;
    if (known && known.sound === sound && known.levels === this.#levels && known.folded === folded)
      if (known.from === from && known.to === to) return known.gainsDb;
    const sounds = sound.choices.map(({ id, voices }) => {
      const channels = channelsOf(sound, id).map((samples) => samples.subarray(from, to));
      return { id, sides: mixedSides(channels, voices, to - from) };
    });
    const gainsDb = loopGainsDb(sounds, sound.rateHz, matchedDb, folded);
    this.#looped = { sound, levels: this.#levels, folded, from, to, gainsDb };
    return gainsDb;
  }
}

/** Sounds of one make are exchanged without a gap. */
const makeOf = ({ rateHz, choices }: PlayableSound): string =>
  JSON.stringify([rateHz, choices.map(({ id, voices }) => [id, voices.map(({ channel }) => channel)])]);
