import type { Rig } from "../../rig/model/rig.js";
import { soundFilesOf } from "../../rig/model/soundFiles.js";
import type { RoutingChoice } from "../../rig/routings/chooseRoutings.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { Take } from "../../sound/audio/take.js";
import { monoOf } from "../../sound/audio/takeSource.js";
import { UserError } from "../../text/userError.js";
import { levelOf } from "../../work/render/reading.js";
import type { BenchState } from "./benchState.js";
import type { Engine } from "./engine/engine.js";
import type { NamedWiring } from "./engine/engineJobs.js";
import { type RenderedSound, Renders } from "./engine/renders.js";
import { freshReport, knownLevels } from "./freshReport.js";
import { type CameWith, hasMoreWays, liveChoice, type Shape, sameShape, shapeOf } from "./liveChoice.js";
import { LiveReturns } from "./liveReturns.js";
import type { LiveSound } from "./liveSound.js";
import type { PageInputs } from "./pageInputs.js";
import { overviewOf } from "./takeOverview.js";

/** A control that is dragged is rendered once it has rested this long. */
const restMs = 60;

/** Brings sound and figures up to date with rig and take. */
export class LiveRender {
  readonly #page: PageInputs;
  readonly #state: BenchState;
  readonly #sound: LiveSound;
  readonly #renders: Renders;
  readonly #returns: LiveReturns;
  readonly #cameWith: CameWith | null;
  /** What the page's parts are made for; null while there is nothing to make them for. */
  #shape: Shape | null;
  #heardTake: Take | null = null;
  #work: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(page: PageInputs, state: BenchState, engine: Engine, sound: LiveSound) {
    const { report } = page.data;
    this.#page = page;
    this.#state = state;
    this.#sound = sound;
    const { tailSeconds, rig } = page.inputs;
    this.#renders = new Renders(engine, { tailSeconds, matched: report?.matching.on ?? true });
    this.#returns = new LiveReturns(engine, page);
    this.#cameWith = rig && report ? { rig, report } : null;
    this.#shape = rig && report ? shapeOf(rig, liveChoice(rig, this.#cameWith, this.#state.kept)) : null;
  }

  /** The rig is another: open mixers are turned at once; the rest is rendered once the control rests. */
  rigTurned(): void {
    const { rig } = this.#state;
    if (!rig) return;
    try {
      this.#refuseMissing(rig);
      const choice = liveChoice(rig, this.#cameWith, this.#state.kept);
      if (this.#newShape(rig, choice)) return;
      this.#sound.turn(wiringsOf(choice));
    } catch (error) {
      this.#work?.abort();
      this.#state.fail(error);
      return;
    }
    this.#state.tell("rig");
    this.#rest();
  }

  /** @throws UserError where the rig names sound files that the page does not hold: the last sound stays */
  #refuseMissing(rig: Rig): void {
    const { take, clips } = this.#state;
    const missing = take ? soundFilesOf(rig).filter((name) => !clips.has(name)) : [];
    if (missing.length === 0) return;
    const message =
      "is named by the rig, and this page does not hold it. Bring it in at its pedal, under The rig.";
    throw new UserError(missing.map((file) => ({ file, message })));
  }

  /** There is no rig any more: nothing is rendered until there is. */
  putAway(): void {
    clearTimeout(this.#timer);
    this.#work?.abort();
    this.#shape = null;
    this.#state.report = null;
    this.#state.fields = new Map();
    this.#state.setProgress(null);
    this.#state.tell("shape");
  }

  /**
   * True where the page's parts must be made anew at once: until the figures are there, there is no report. Where routings
   * only came to those that there are, what is shown stays until then.
   */
  #newShape(rig: Rig, choice: RoutingChoice): boolean {
    const shape = shapeOf(rig, choice);
    if (sameShape(shape, this.#shape)) return false;
    if (this.#state.report && hasMoreWays(this.#shape, shape)) return false;
    this.#shape = shape;
    this.#state.report = null;
    this.#state.fields = new Map();
    this.#state.tell("shape");
    this.#rest();
    return true;
  }

  /** What is being worked out is of a rig that is no more: it would put that one back, and be taken for this one's. */
  #rest(): void {
    this.#work?.abort();
    this.#state.setProgress({ done: 0, what: "rendering" });
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.update(), restMs);
  }

  /** A wiring of the rig as it is now; null where it has none such. */
  wiringOf(id: string): Wiring | null {
    const { rig } = this.#state;
    if (!rig) return null;
    return (
      liveChoice(rig, this.#cameWith, this.#state.kept).routings.find((routing) => routing.id === id)
        ?.wiring ?? null
    );
  }

  /** Renders and measures what has changed; an earlier update that is not done is given up. */
  async update(): Promise<void> {
    const { take, clips, rig: asWritten } = this.#state;
    if (!take || !asWritten) return;
    clearTimeout(this.#timer);
    this.#work?.abort();
    const work = new AbortController();
    this.#work = work;
    try {
      this.#refuseMissing(asWritten);
      await this.#hearFirst(asWritten, take, work.signal);
      const ids = ownIds(liveChoice(asWritten, this.#cameWith));
      const rig = await this.#returns.measured(asWritten, ids, take, clips, work.signal);
      work.signal.throwIfAborted();
      const hasReport = this.#state.report !== null;
      if (rig !== asWritten) {
        this.#state.rig = rig;
        if (hasReport) this.#state.tell("rig");
      }
      const choice = liveChoice(rig, this.#cameWith, this.#state.kept);
      const figures = await this.#renders.update(
        { rig, choice, take: asPlayedInto(rig, take), clips, levels: knownLevels(this.#page, rig, take) },
        {
          signal: work.signal,
          onProgress: (done, what) => this.#state.setProgress({ done, what }),
          onSound: (rendered) => this.#hear(rendered, take),
        },
      );
      const { file } = this.#page.inputs.rigText;
      this.#state.report = freshReport(this.#page.data.report, figures, { rig, rigFile: file, take });
      this.#sound.setLevels(figures.readings.map(levelOf));
      this.#state.fields = figures.fields;
      this.#state.setFault(null);
      const shape = shapeOf(rig, choice);
      const isSame = hasReport && sameShape(shape, this.#shape);
      this.#shape = shape;
      this.#state.setProgress(null);
      this.#state.tell(isSame ? "report" : "shape");
    } catch (error) {
      if (!work.signal.aborted) this.#state.fail(error);
    }
  }

  /** What is playing is heard as it is now before the rest is worked out; its returns are as they were measured last. */
  async #hearFirst(rig: Rig, take: Take, signal: AbortSignal): Promise<void> {
    const { player } = this.#sound;
    const isSameTake = take === this.#heardTake;
    if (!player.playing || !isSameTake || !this.#state.report) return;
    const { clips, kept } = this.#state;
    const choice = liveChoice(rig, this.#cameWith, kept);
    const heard = wiringsOf(choice).find(({ id }) => id === player.chosen);
    if (!heard || this.#sound.plays(heard)) return;
    const levels = knownLevels(this.#page, rig, take);
    const state = { rig, choice, take: asPlayedInto(rig, take), clips, levels };
    const track = await this.#renders.one(state, heard, this.#sound.frames, signal);
    if (track) this.#sound.takeOne(track, heard.wiring);
  }

  #hear(rendered: RenderedSound, take: Take): readonly (readonly Float32Array[])[] {
    const isNewTake = take !== this.#heardTake;
    this.#heardTake = take;
    this.#state.overview = overviewOf(monoOf(take.samples), rendered.frames);
    return this.#sound.take(rendered, take.rateHz, isNewTake, this.#state.recordings);
  }
}

/** A take with two sides into an instrument with one output is folded, as the command line does; kept by take. */
function asPlayedInto({ instrument }: Rig, take: Take): Take {
  if (instrument.outputs === 2 || !("left" in take.samples)) return take;
  const known = folded.get(take) ?? { ...take, samples: monoOf(take.samples) };
  folded.set(take, known);
  return known;
}
const folded = new WeakMap<Take, Take>();

/** The rig's own: what was kept has its returns as they were. */
const ownIds = ({ routings }: RoutingChoice): readonly string[] =>
  routings.filter(({ wiring, keptFrom }) => wiring && !keptFrom).map(({ id }) => id);

const wiringsOf = ({ routings }: RoutingChoice): readonly NamedWiring[] =>
  routings.flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : []));
