import { toYaml } from "../../rig/file/toYaml.js";
import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { dryId } from "../../rig/wiring/dryWiring.js";
import type { Take } from "../../sound/audio/take.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import { UserError } from "../../text/userError.js";
import type { Report } from "../../work/compare/report.js";
import { levelOf } from "../../work/render/reading.js";
import type { Bench, BenchChange, EngineCheck, StereoField, Switches } from "../contract/bench.js";
import { type UnitChange, withKnobs, withMixer, withSetting, withUnit } from "./changedRig.js";
import { Engine } from "./engine/engine.js";
import { type RenderedSound, Renders } from "./engine/renders.js";
import { freshReport, knownLevels } from "./freshReport.js";
import { LiveCheck } from "./liveCheck.js";
import { LiveSound } from "./liveSound.js";
import { LiveSwitches } from "./liveSwitches.js";
import type { PageInputs } from "./pageInputs.js";
import { LivePlayer } from "./player/livePlayer.js";
import { renderedReference, renderedRoutings } from "./renderedRoutings.js";
import { openTake } from "./takeFiles/openTake.js";
import { type Clips, pageClips, pageTake } from "./takeFiles/pageTake.js";
import { mostTakeFrames } from "./takeMemory.js";
import { overviewOf } from "./takeOverview.js";

/** A control that is dragged is rendered once it has rested this long. */
const restMs = 60;

/** The bench of the page: the rig as it is turned, its renders, its report, its player. */
export class LiveBench implements Bench {
  readonly originalRig: Rig;
  readonly player: LivePlayer;
  readonly #page: PageInputs;
  readonly #engine: Engine;
  readonly #renders: Renders;
  readonly #sound: LiveSound;
  readonly #switches: LiveSwitches;
  readonly #check: LiveCheck;
  readonly #listeners = new Set<(change: BenchChange) => void>();
  #rig: Rig;
  #take: Take | null = null;
  #clips: Clips = new Map();
  #isNewTake = true;
  #report: Report;
  #fields: ReadonlyMap<string, StereoField> = new Map();
  #progress: Bench["progress"] = { done: 0, what: "opening the take" };
  #overview: Float32Array = new Float32Array(0);
  #fault: string | null = null;
  #work: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** Starts to decode and render at once. */
  constructor(page: PageInputs) {
    const { report } = page.data;
    const rendered = renderedRoutings(report);
    const ids = rendered.map(({ id }) => id);
    this.#page = page;
    this.#rig = page.inputs.rig;
    this.originalRig = page.inputs.rig;
    this.#report = report;
    this.#engine = new Engine(page.engineSource, page.fftBinary, 2);
    this.#renders = new Renders(this.#engine, {
      ids,
      reference: renderedReference(report),
      tailSeconds: page.inputs.tailSeconds,
      matched: report.matching.on,
    });
    const choices = [...rendered.filter(({ possible }) => possible).map(({ id }) => id), dryId];
    this.player = new LivePlayer(choices, () => this.#tell("player"));
    this.#sound = new LiveSound(this.player);
    this.#switches = new LiveSwitches(this.#engine, () => this.#tell("switches"));
    this.#check = new LiveCheck(page.fftBinary, () => this.#tell("check"));
    void this.#open();
  }

  get rig(): Rig {
    return this.#rig;
  }
  get takeName(): string {
    return this.#take?.file ?? this.#page.data.report.take.file;
  }
  get report(): Report {
    return this.#report;
  }
  get fields(): ReadonlyMap<string, StereoField> {
    return this.#fields;
  }
  get progress(): Bench["progress"] {
    return this.#progress;
  }
  get overview(): Float32Array {
    return this.#overview;
  }
  get fault(): string | null {
    return this.#fault;
  }
  get switches(): Switches {
    return this.#switches.state(this.#rig, this.#take);
  }
  get engineCheck(): EngineCheck {
    return this.#check.state(this.#rig, this.#take);
  }

  listen(listener: (change: BenchChange) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }

  setSetting(pedal: string, key: string, value: SettingValue): void {
    this.#change(withSetting(this.#rig, pedal, key, value));
  }
  setUnit(pedal: string, change: UnitChange): void {
    this.#change(withUnit(this.#rig, pedal, change));
  }
  setMixer(change: Partial<Rig["mixer"]>): void {
    this.#change(withMixer(this.#rig, change));
  }
  setKnobs(settings: Readonly<Record<string, SettingValue>>): void {
    this.#change(withKnobs(this.originalRig, settings));
  }
  reset(): void {
    this.#change(this.originalRig);
  }

  async loadTake(file: File): Promise<void> {
    const { tailSeconds } = this.#page.inputs;
    const { length } = this.player.choices;
    const take = await openTake(file, (rateHz) => mostTakeFrames(length, rateHz, tailSeconds));
    this.#clips = await pageClips(this.#page, take.rateHz);
    this.#take = take;
    this.#isNewTake = true;
    this.#switches.stop();
    this.#check.stop();
    this.#tell("take");
    this.#setProgress({ done: 0, what: "rendering" });
    void this.#update();
  }

  rigYaml(): string {
    return toYaml(this.#rig);
  }
  routingWav(id: string): Blob {
    return this.#sound.wav(id);
  }
  measureSwitches(ids: readonly string[]): void {
    if (this.#take) void this.#switches.look({ rig: this.#rig, take: this.#take, clips: this.#clips }, ids);
  }
  stopSwitches(): void {
    this.#switches.stop();
  }
  checkEngine(ids: readonly string[]): void {
    if (this.#take) void this.#check.look({ rig: this.#rig, take: this.#take, clips: this.#clips }, ids);
  }
  stopCheck(): void {
    this.#check.stop();
  }

  async #open(): Promise<void> {
    try {
      this.#take = await pageTake(this.#page);
      if (this.#take) this.#clips = await pageClips(this.#page, this.#take.rateHz);
    } catch (error) {
      this.#fail(error);
      return;
    }
    if (this.#take) await this.#update();
    else this.#fail(new UserError("the take was too long to travel in this page; bring one of your own"));
  }

  /** Open mixers are turned at once; the rest is rendered once the control rests. */
  #change(rig: Rig): void {
    this.#rig = rig;
    this.#switches.stop();
    this.#check.stop();
    this.#tell("rig");
    try {
      this.#sound.turn(this.#choice().routings.flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : [])));
    } catch (error) {
      this.#fail(error);
      return;
    }
    this.#setProgress({ done: 0, what: "rendering" });
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#update(), restMs);
  }

  #choice() {
    const { report } = this.#page.data;
    return chooseRoutings(
      this.#rig,
      renderedRoutings(report).map(({ id }) => id),
      renderedReference(report),
    );
  }

  /** Brings sound and figures up to date; an earlier update that is not done is given up. */
  async #update(): Promise<void> {
    const take = this.#take;
    if (!take) return;
    clearTimeout(this.#timer);
    this.#work?.abort();
    const work = new AbortController();
    this.#work = work;
    const rig = this.#rig;
    try {
      const figures = await this.#renders.update(
        { rig, take, clips: this.#clips, levels: knownLevels(this.#page, rig, take) },
        {
          signal: work.signal,
          onProgress: (done, what) => this.#setProgress({ done, what }),
          onSound: (rendered) => this.#hear(rendered, take),
        },
      );
      this.#report = freshReport(this.#page.data.report, figures, rig, take);
      this.#sound.setLevels(figures.readings.map(levelOf));
      this.#fields = figures.fields;
      this.#setFault(null);
      this.#setProgress(null);
      this.#tell("report");
    } catch (error) {
      if (!work.signal.aborted) this.#fail(error);
    }
  }

  #hear(rendered: RenderedSound, take: Take): readonly (readonly Float32Array[])[] {
    this.#overview = overviewOf(take.samples, rendered.frames);
    const kept = this.#sound.take(rendered, take.rateHz, this.#isNewTake);
    this.#isNewTake = false;
    return kept;
  }

  #fail(error: unknown): void {
    if (!(error instanceof UserError)) console.error(error);
    const words = error instanceof Error ? error.message : String(error);
    this.#setFault(error instanceof UserError ? words : `this could not be rendered: ${words}`);
    this.#setProgress(null);
  }

  #setFault(fault: string | null): void {
    if (this.#fault === fault) return;
    this.#fault = fault;
    this.#tell("fault");
  }

  #setProgress(progress: Bench["progress"]): void {
    this.#progress = progress;
    this.#tell("progress");
  }

  #tell(change: BenchChange): void {
    for (const listener of this.#listeners) listener(change);
  }
}
