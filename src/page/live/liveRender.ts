import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import type { Take } from "../../sound/audio/take.js";
import { monoOf } from "../../sound/audio/takeSource.js";
import { levelOf } from "../../work/render/reading.js";
import type { BenchState } from "./benchState.js";
import type { Engine } from "./engine/engine.js";
import type { NamedWiring } from "./engine/engineJobs.js";
import { type RenderedSound, type RenderPlan, Renders } from "./engine/renders.js";
import { freshReport, knownLevels } from "./freshReport.js";
import { LiveReturns } from "./liveReturns.js";
import type { LiveSound } from "./liveSound.js";
import type { PageInputs } from "./pageInputs.js";
import { renderedReference, renderedRoutings } from "./renderedRoutings.js";
import { overviewOf } from "./takeOverview.js";

/** A control that is dragged is rendered once it has rested this long. */
const restMs = 60;

/** Brings sound and figures up to date with rig and take. */
export class LiveRender {
  readonly #page: PageInputs;
  readonly #state: BenchState;
  readonly #sound: LiveSound;
  readonly #plan: RenderPlan;
  readonly #renders: Renders;
  readonly #returns: LiveReturns;
  #heardTake: Take | null = null;
  #work: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(page: PageInputs, state: BenchState, engine: Engine, sound: LiveSound) {
    const { report } = page.data;
    this.#page = page;
    this.#state = state;
    this.#sound = sound;
    this.#plan = {
      ids: renderedRoutings(report).map(({ id }) => id),
      reference: renderedReference(report),
      tailSeconds: page.inputs.tailSeconds,
      matched: report.matching.on,
    };
    this.#renders = new Renders(engine, this.#plan);
    this.#returns = new LiveReturns(engine, page, this.#plan.ids);
  }

  /** The rig was turned: open mixers are turned at once; the rest is rendered once the control rests. */
  rigTurned(): void {
    try {
      this.#sound.turn(this.#wirings());
    } catch (error) {
      this.#state.fail(error);
      return;
    }
    this.#state.setProgress({ done: 0, what: "rendering" });
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.update(), restMs);
  }

  /** Renders and measures what has changed; an earlier update that is not done is given up. */
  async update(): Promise<void> {
    const { take, clips } = this.#state;
    if (!take) return;
    clearTimeout(this.#timer);
    this.#work?.abort();
    const work = new AbortController();
    this.#work = work;
    try {
      const rig = await this.#returns.measured(this.#state.rig, take, clips, work.signal);
      work.signal.throwIfAborted();
      if (rig !== this.#state.rig) {
        this.#state.rig = rig;
        this.#state.tell("rig");
      }
      const figures = await this.#renders.update(
        { rig, take, clips, levels: knownLevels(this.#page, rig, take) },
        {
          signal: work.signal,
          onProgress: (done, what) => this.#state.setProgress({ done, what }),
          onSound: (rendered) => this.#hear(rendered, take),
        },
      );
      this.#state.report = freshReport(this.#page.data.report, figures, rig, take);
      this.#sound.setLevels(figures.readings.map(levelOf));
      this.#state.fields = figures.fields;
      this.#state.setFault(null);
      this.#state.setProgress(null);
      this.#state.tell("report");
    } catch (error) {
      if (!work.signal.aborted) this.#state.fail(error);
    }
  }

  #hear(rendered: RenderedSound, take: Take): readonly (readonly Float32Array[])[] {
    const isNewTake = take !== this.#heardTake;
    this.#heardTake = take;
    this.#state.overview = overviewOf(monoOf(take.samples), rendered.frames);
    return this.#sound.take(rendered, take.rateHz, isNewTake);
  }

  #wirings(): readonly NamedWiring[] {
    const { routings } = chooseRoutings(this.#state.rig, this.#plan.ids, this.#plan.reference);
    return routings.flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : []));
  }
}
