import type { RoutingChoice } from "../../../rig/routings/chooseRoutings.js";
import { dryId, dryWiring } from "../../../rig/wiring/dryWiring.js";
import { type MatchedLevels, matchedLevels } from "../../../work/compare/matchedLevels.js";
import { levelOf, type Reading } from "../../../work/render/reading.js";
import type { TailRule } from "../../../work/render/render.js";
import { tailRule } from "../../../work/render/tail.js";
import type { StereoField } from "../../contract/stereoField.js";
import type { NamedWiring, PlayedTrack } from "./engineJobs.js";
import { KnownByWiring } from "./knownByWiring.js";
import { measureAll } from "./measureAll.js";
import type { RenderEngine, RenderState } from "./renderState.js";

export interface RenderedSound {
  readonly wirings: readonly NamedWiring[];
  readonly frames: number;
  /** In the order of `wirings`, with their levels. */
  readonly tracks: readonly PlayedTrack[];
}

export interface RenderedFigures {
  readonly choice: RoutingChoice;
  readonly frames: number;
  readonly readings: readonly Reading[];
  readonly levels: MatchedLevels;
  readonly fields: ReadonlyMap<string, StereoField>;
}

export interface UpdateOptions {
  readonly signal: AbortSignal;
  readonly onProgress: (done: number, what: string) => void;
  /** Called as soon as all can be heard, before anything is measured. May give back other memory with the same sound. */
  readonly onSound: (sound: RenderedSound) => readonly (readonly Float32Array[])[];
}

/** How it is rendered, however the rig is turned. */
export interface RenderPlan {
  /** Tails are cut here at the latest. */
  readonly tailSeconds: number;
  /** Whether files are matched in loudness. */
  readonly matched: boolean;
}

interface MeasuredWiring {
  readonly reading: Reading;
  readonly field: StereoField;
}

/** All that was rendered and measured, by wiring, and the work of bringing it up to date: only what changed is done again. */
export class Renders {
  readonly #engine: RenderEngine;
  readonly #plan: RenderPlan;
  readonly #tracks = new KnownByWiring<PlayedTrack>();
  readonly #responseFrames = new KnownByWiring<number>();
  readonly #figures = new KnownByWiring<MeasuredWiring>();
  #take: RenderState["take"] | null = null;
  #clips: RenderState["clips"] | null = null;

  constructor(engine: RenderEngine, plan: RenderPlan) {
    this.#engine = engine;
    this.#plan = plan;
  }

  /** @throws what `signal` was aborted with; UserError when the rig does not hold together */
  async update(state: RenderState, options: UpdateOptions): Promise<RenderedFigures> {
    if (state.take !== this.#take || state.clips !== this.#clips) this.#forget(state);
    const { choice } = state;
    const possible = choice.routings.flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : []));
    const wirings = [{ id: dryId, wiring: dryWiring(state.rig.instrument) }, ...possible];
    const tail = tailRule(state.rig, this.#plan.tailSeconds);
    const work: RenderWork = { ...state, wirings, tail, ...options };
    const frames = await this.#renderSound(work);
    const tracks = this.#current(work);
    const kept = options.onSound({ wirings, frames, tracks });
    tracks.forEach((track, n) => {
      this.#tracks.learn(wirings[n], { ...track, channels: kept[n] });
    });
    await this.#learnResponses(work);
    return { choice, frames, ...(await this.#readFigures(work, frames)) };
  }

  /**
   * Brings the sound of one wiring up to date ahead of all others.
   * @param leastFrames  it is to be at least as long
   * @returns null where it is as it was, or take or sound files are others: then all is new
   */
  async one(
    state: RenderState,
    named: NamedWiring,
    leastFrames: number,
    signal: AbortSignal,
  ): Promise<PlayedTrack | null> {
    const { take, clips, levels } = state;
    if (take !== this.#take || clips !== this.#clips) return null;
    if (this.#tracks.stale([named]).length === 0) return null;
    const tail = tailRule(state.rig, this.#plan.tailSeconds);
    const { samples, rateHz } = take;
    const job = { wirings: [named], take: samples, rateHz, clips, tail, leastFrames, levels } as const;
    const { tracks } = await this.#engine.sound({ kind: "sound", ...job }, { signal });
    this.#tracks.learn(named, tracks[0]);
    return tracks[0];
  }

  #forget({ take, clips }: RenderState): void {
    this.#take = take;
    this.#clips = clips;
    for (const known of [this.#tracks, this.#responseFrames, this.#figures]) known.forget();
  }

  /** @returns frames that all tracks have at least */
  async #renderSound(work: RenderWork): Promise<number> {
    const stale = this.#tracks.stale(work.wirings);
    await this.#renderTracks(work, stale, this.#neededFrames(work, stale));
    const frames = this.#neededFrames(work, []);
    const short = work.wirings.filter((wiring) => this.#tracks.of(wiring).channels[0].length < frames);
    await this.#renderTracks(work, short, frames);
    return frames;
  }

  /** In one worker: most of the work is shared between wirings, and two would do it twice (no sooner, as measured). */
  async #renderTracks(work: RenderWork, wirings: readonly NamedWiring[], leastFrames: number): Promise<void> {
    if (wirings.length === 0) return;
    const { take, clips, tail, levels, signal, onProgress } = work;
    const what = `rendering ${wirings.length} ${wirings.length === 1 ? "wiring" : "wirings"}`;
    const { samples, rateHz } = take;
    const { tracks } = await this.#engine.sound(
      { kind: "sound", wirings, take: samples, rateHz, clips, tail, leastFrames, levels },
      { signal, onFrames: (done) => onProgress(soundShare * Math.min(1, done / samples.length), what) },
    );
    tracks.forEach((track, n) => {
      this.#tracks.learn(wirings[n], track);
    });
  }

  async #learnResponses({ wirings, take: { rateHz }, clips, tail, signal }: RenderWork): Promise<void> {
    const stale = this.#responseFrames.stale(wirings);
    if (stale.length === 0) return;
    const job = { kind: "responses", wirings: stale, rateHz, clips, tail } as const;
    const { needs } = await this.#engine.responses(job, { signal });
    needs.forEach(({ frames }, n) => {
      this.#responseFrames.learn(stale[n], frames);
    });
  }

  async #readFigures(work: RenderWork, frames: number): Promise<Omit<RenderedFigures, "choice" | "frames">> {
    await this.#measure(work, frames);
    const found = work.wirings.map((wiring) => this.#figures.of(wiring));
    const readings = found.map(({ reading }) => reading);
    return {
      readings,
      levels: matchedLevels(readings.map(levelOf), this.#plan.matched),
      fields: new Map(found.map(({ reading, field }) => [reading.id, field])),
    };
  }

  async #measure(work: RenderWork, frames: number): Promise<void> {
    const { wirings } = work;
    const responseFrames = Math.max(...wirings.map((wiring) => this.#responseFrames.of(wiring)));
    const lengths = `${frames} ${responseFrames}`;
    const stale = this.#figures.stale(wirings, lengths);
    const tracks = this.#current(work);
    const onShare = (share: number) => work.onProgress(soundShare + (1 - soundShare) * share, "measuring");
    const results = await measureAll(this.#engine, {
      ...work,
      stale,
      frames,
      responseFrames,
      tracks,
      onShare,
    });
    const measured = new Map(
      results.flatMap(({ readings, fields }) =>
        readings.map((reading, n) => [reading.id, { reading, field: fields[n] }] as const),
      ),
    );
    for (const wiring of stale) this.#figures.learn(wiring, measured.get(wiring.id)!, lengths);
  }

  #neededFrames({ wirings, take }: RenderWork, without: readonly NamedWiring[]): number {
    const known = wirings.filter((wiring) => !without.includes(wiring));
    return Math.max(take.samples.length, ...known.map((wiring) => this.#tracks.of(wiring).neededFrames));
  }

  #current({ wirings }: RenderWork): PlayedTrack[] {
    return wirings.map((wiring) => this.#tracks.of(wiring));
  }
}

interface RenderWork extends RenderState, UpdateOptions {
  readonly wirings: readonly NamedWiring[];
  readonly tail: TailRule;
}

/** Share of the whole time that rendering takes; the rest is measuring. */
const soundShare = 0.3;
