import { chooseRoutings, type RoutingChoice } from "../../../rig/routings/chooseRoutings.js";
import { dryId, dryWiring } from "../../../rig/wiring/dryWiring.js";
import { type MatchedLevels, matchedLevels } from "../../../work/compare/matchedLevels.js";
import { levelOf, type Reading } from "../../../work/render/reading.js";
import type { TailRule } from "../../../work/render/render.js";
import { tailRule } from "../../../work/render/tail.js";
import type { StereoField } from "../../contract/bench.js";
import type { NamedWiring, Track } from "./engineJobs.js";
import { measureAll } from "./measureAll.js";
import type { RenderEngine, RenderState } from "./renderState.js";

export interface RenderedSound {
  readonly wirings: readonly NamedWiring[];
  readonly frames: number;
  /** In the order of `wirings`, with their levels. */
  readonly tracks: readonly Track[];
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

interface Known<T> {
  /** The wiring for which it is true. */
  readonly key: string;
  readonly value: T;
}

/** All that was rendered and measured, by wiring, and the work of bringing it up to date: only what changed is done again. */
export class Renders {
  readonly #engine: RenderEngine;
  readonly #ids: readonly string[];
  readonly #reference: string | null;
  readonly #tailSeconds: number;
  readonly #matched: boolean;
  readonly #tracks = new Map<string, Known<Track>>();
  readonly #responseFrames = new Map<string, Known<number>>();
  readonly #figures = new Map<string, Known<{ reading: Reading; field: StereoField }>>();
  #take: RenderState["take"] | null = null;

  /** @param plan  routings of the comparison, the one to compare with, longest tail, and whether its files are matched */
  constructor(
    engine: RenderEngine,
    plan: { ids: readonly string[]; reference: string | null; tailSeconds: number; matched: boolean },
  ) {
    this.#engine = engine;
    this.#ids = plan.ids;
    this.#reference = plan.reference;
    this.#tailSeconds = plan.tailSeconds;
    this.#matched = plan.matched;
  }

  /** @throws what `signal` was aborted with; UserError when the rig does not hold together */
  async update(state: RenderState, options: UpdateOptions): Promise<RenderedFigures> {
    if (state.take !== this.#take) this.#forget(state.take);
    const choice = chooseRoutings(state.rig, this.#ids, this.#reference);
    const possible = choice.routings.flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : []));
    const wirings = [{ id: dryId, wiring: dryWiring(state.rig.instrument) }, ...possible];
    const work: Work = { ...state, wirings, tail: tailRule(state.rig, this.#tailSeconds), ...options };
    const frames = await this.#renderSound(work);
    const kept = options.onSound({ wirings, frames, tracks: this.#current(work) });
    this.#current(work).forEach((track, n) => {
      const { key } = this.#tracks.get(track.id)!;
      this.#tracks.set(track.id, { key, value: { ...track, channels: kept[n] } });
    });
    await this.#learnResponses(work);
    return { choice, frames, ...(await this.#readFigures(work, frames)) };
  }

  #forget(take: RenderState["take"]): void {
    this.#take = take;
    this.#tracks.clear();
    this.#responseFrames.clear();
    this.#figures.clear();
  }

  /** @returns frames that all tracks have at least */
  async #renderSound(work: Work): Promise<number> {
    const stale = work.wirings.filter((wiring) => this.#tracks.get(wiring.id)?.key !== keyOf(wiring));
    await this.#renderTracks(work, stale, this.#neededFrames(work, stale));
    const frames = this.#neededFrames(work, []);
    const short = work.wirings.filter(({ id }) => this.#tracks.get(id)!.value.channels[0].length < frames);
    await this.#renderTracks(work, short, frames);
    return frames;
  }

  /** In one worker: most of the work is shared between wirings, and two would do it twice (no sooner, as measured). */
  async #renderTracks(work: Work, wirings: readonly NamedWiring[], leastFrames: number): Promise<void> {
    if (wirings.length === 0) return;
    const { take, clips, tail, levels, signal, onProgress } = work;
    const what = `rendering ${wirings.length} ${wirings.length === 1 ? "wiring" : "wirings"}`;
    const { samples, rateHz } = take;
    const { tracks } = await this.#engine.sound(
      { kind: "sound", wirings, take: samples, rateHz, clips, tail, leastFrames, levels },
      { signal, onFrames: (done) => onProgress(soundShare * Math.min(1, done / samples.length), what) },
    );
    for (const [n, track] of tracks.entries()) {
      this.#tracks.set(track.id, { key: keyOf(wirings[n]), value: track });
    }
  }

  async #learnResponses({ wirings, take: { rateHz }, clips, tail, signal }: Work): Promise<void> {
    const stale = wirings.filter((wiring) => this.#responseFrames.get(wiring.id)?.key !== keyOf(wiring));
    if (stale.length === 0) return;
    const job = { kind: "responses", wirings: stale, rateHz, clips, tail } as const;
    const { needs } = await this.#engine.responses(job, { signal });
    needs.forEach(({ id, frames }, n) => {
      this.#responseFrames.set(id, { key: keyOf(stale[n]), value: frames });
    });
  }

  async #readFigures(work: Work, frames: number): Promise<Omit<RenderedFigures, "choice" | "frames">> {
    const { wirings } = work;
    const responseFrames = Math.max(...wirings.map(({ id }) => this.#responseFrames.get(id)!.value));
    const tracks = this.#current(work);
    const keyed = (wiring: NamedWiring) => `${frames} ${responseFrames} ${keyOf(wiring)}`;
    const stale = wirings.filter((wiring) => this.#figures.get(wiring.id)?.key !== keyed(wiring));
    const onShare = (share: number) => work.onProgress(soundShare + (1 - soundShare) * share, "measuring");
    const results = await measureAll(this.#engine, {
      ...work,
      stale,
      frames,
      responseFrames,
      tracks,
      onShare,
    });
    for (const { readings, fields } of results) {
      readings.forEach((reading, n) => {
        const wiring = wirings.find(({ id }) => id === reading.id)!;
        this.#figures.set(reading.id, { key: keyed(wiring), value: { reading, field: fields[n] } });
      });
    }
    const found = wirings.map(({ id }) => this.#figures.get(id)!.value);
    const readings = found.map(({ reading }) => reading);
    return {
      readings,
      levels: matchedLevels(readings.map(levelOf), this.#matched),
      fields: new Map(found.map(({ reading, field }) => [reading.id, field])),
    };
  }

  #neededFrames({ wirings, take }: Work, without: readonly NamedWiring[]): number {
    const known = wirings.filter((wiring) => !without.includes(wiring));
    return Math.max(take.samples.length, ...known.map(({ id }) => this.#tracks.get(id)!.value.neededFrames));
  }

  #current({ wirings }: Work): Track[] {
    return wirings.map(({ id }) => this.#tracks.get(id)!.value);
  }
}

interface Work extends RenderState, UpdateOptions {
  readonly wirings: readonly NamedWiring[];
  readonly tail: TailRule;
}

/** Share of the whole time that rendering takes; the rest is measuring. */
const soundShare = 0.3;

const keyOf = ({ wiring }: NamedWiring): string => JSON.stringify(wiring);
