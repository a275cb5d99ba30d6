import { editRig } from "../../rig/file/editRig.js";
import type { CheckedRig } from "../../rig/file/parseRig.js";
import { turnedEdits } from "../../rig/file/turnedEdits.js";
import type { Rig } from "../../rig/model/rig.js";
import { dryId } from "../../rig/wiring/dryWiring.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { Take } from "../../sound/audio/take.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import { UserError } from "../../text/userError.js";
import { type Reel, usualReel } from "../../work/compare/reel.js";
import type { Report } from "../../work/compare/report.js";
import { answerIdOf } from "../contract/answerId.js";
import type { Bench, BenchChange } from "../contract/bench.js";
import type { EngineCheck, Switches } from "../contract/onDemand.js";
import { BenchState } from "./benchState.js";
import { LiveCapture } from "./capture/liveCapture.js";
import { type UnitChange, withKnobs, withMixer, withSetting, withUnit } from "./changedRig.js";
import { LiveDesk } from "./desk/liveDesk.js";
import { pageStore, StoredWork } from "./desk/storedWork.js";
import { Engine } from "./engine/engine.js";
import { LiveInput } from "./input/liveInput.js";
import { withKept } from "./keptChoices.js";
import { LiveCheck } from "./liveCheck.js";
import { LiveRender } from "./liveRender.js";
import { LiveSound } from "./liveSound.js";
import { LiveSwitches } from "./liveSwitches.js";
import { inOwnTask } from "./ownTask.js";
import type { PageInputs } from "./pageInputs.js";
import { LivePlayer } from "./player/livePlayer.js";
import { silentDeviceText } from "./player/silentDevice.js";
import { LiveRecorder } from "./record/liveRecorder.js";
import { renderedRoutings } from "./renderedRoutings.js";
import { type SavedPage, savedPage } from "./save/savedPage.js";
import { openTake } from "./takeFiles/openTake.js";
import { pageRecordings } from "./takeFiles/pageRecordings.js";
import { PageSoundFiles } from "./takeFiles/pageSoundFiles.js";
import { pageTake, pageTakeNames } from "./takeFiles/pageTake.js";
import { mostTakeFrames } from "./takeMemory.js";

/** Workers of the engine. */
const workers = 2;

/** The bench of the page: the rig as it is turned, its renders, its report, its player. */
export class LiveBench implements Bench {
  readonly desk: LiveDesk;
  readonly player: LivePlayer;
  readonly input: LiveInput;
  readonly recorder: LiveRecorder;
  readonly capture: LiveCapture;
  isWorkKept = true;
  readonly #page: PageInputs;
  readonly #state: BenchState;
  readonly #sound: LiveSound;
  readonly #render: LiveRender;
  readonly #stored: StoredWork;
  readonly #switches: LiveSwitches;
  readonly #check: LiveCheck;
  readonly #soundFiles: PageSoundFiles;
  #takesAsked = 0;

  /** Starts to decode and render at once. */
  constructor(page: PageInputs) {
    const state = new BenchState(page);
    const engine = new Engine(page.engineSource, page.fftBinary, workers);
    this.#page = page;
    this.#state = state;
    this.#soundFiles = new PageSoundFiles(page.inputs.clips);
    this.#stored = new StoredWork(pageStore(), location.pathname, page.inputs.rigText.text);
    this.desk = new LiveDesk(page.inputs.rigText, (checked) => this.#rigEdited(checked));
    this.player = new LivePlayer(
      choicesOf(page),
      inOwnTask(() => state.tell("player")),
      () => state.setFault(silentDeviceText),
    );
    this.input = new LiveInput(() => this.#inputChanged());
    this.recorder = new LiveRecorder(this.input, {
      tell: () => state.tell("recorder"),
      mostFrames: (rateHz) => this.#mostTakeFrames(rateHz),
      quiet: () => this.player.pause(),
      volumeDb: () => this.player.volumeDb,
    });
    this.capture = new LiveCapture(this.input, engine, {
      tell: () => state.tell("capture"),
      quiet: () => this.player.pause(),
      soundFiles: () => this.soundFiles,
    });
    addEventListener("beforeunload", (event) => {
      if (this.recorder.wouldBeLost) event.preventDefault();
    });
    this.#sound = new LiveSound(this.player);
    this.#render = new LiveRender(page, state, engine, this.#sound);
    this.#switches = new LiveSwitches(engine, () => state.tell("switches"));
    this.#check = new LiveCheck(page.fftBinary, () => state.tell("check"));
    this.#beginWithAnswer();
    state.listen((change) => {
      if (change === "report" || change === "shape") this.#beginWithAnswer();
    });
    const left = this.#stored.read();
    if (left) this.desk.replace("your changes from before", left.text, left.file);
    void this.#open();
  }

  get rig(): Rig {
    if (!this.#state.rig) throw new Error("there is no rig yet");
    return this.#state.rig;
  }
  get takeName(): string {
    return this.#state.take?.file ?? this.#page.data.report?.take.file ?? "no take";
  }
  get report(): Report | null {
    return this.#state.report;
  }
  get fields(): Bench["fields"] {
    return this.#state.fields;
  }
  get progress(): Bench["progress"] {
    return this.#state.progress;
  }
  get overview(): Float32Array {
    return this.#state.overview;
  }
  get fault(): string | null {
    return this.#state.fault;
  }
  get switches(): Switches {
    return this.#switches.state(this.rig, this.#state.take);
  }
  get engineCheck(): EngineCheck {
    return this.#check.state(this.rig, this.#state.take);
  }

  wiringOf(id: string): Wiring | null {
    return this.#render.wiringOf(id);
  }

  listen(listener: (change: BenchChange) => void): () => void {
    return this.#state.listen(listener);
  }

  setSetting(pedal: string, key: string, value: SettingValue): void {
    this.#turn(`${pedal}, ${key}`, withSetting(this.rig, pedal, key, value));
  }
  setUnit(pedal: string, change: UnitChange): void {
    this.#turn(`${pedal}, ${Object.keys(change).join(", ")}`, withUnit(this.rig, pedal, change));
  }
  setMixer(change: Partial<Rig["mixer"]>): void {
    this.#turn(`mixer, ${Object.keys(change).join(", ")}`, withMixer(this.rig, change));
  }
  setLoading(heard: boolean): void {
    this.#use({ ...this.rig, leavesLoadingOut: !heard });
  }
  setKnobs(settings: Readonly<Record<string, SettingValue>>): void {
    const { rig, rigText } = this.#page.inputs;
    if (!rig) throw new Error("this page came without a rig");
    const turned = editRig(rigText.text, turnedEdits(rig, withKnobs(rig, settings)));
    this.desk.replace("a setting of the sweep", turned, rigText.file);
  }
  reset(): void {
    this.desk.reset();
  }

  get takeNames(): readonly string[] {
    return pageTakeNames(this.#page);
  }
  async chooseTake(place: number): Promise<void> {
    await this.#useTake(pageTake(this.#page, place));
  }
  async loadTake(file: File): Promise<void> {
    const outputs = this.#state.rig?.instrument.outputs ?? 1;
    await this.#useTake(openTake(file, outputs, (rateHz) => this.#mostTakeFrames(rateHz)));
  }

  /** Of several that are opened at once the last that was asked for is used, however long each takes. */
  async #useTake(opening: Promise<Take | null>): Promise<void> {
    const asked = ++this.#takesAsked;
    const take = await opening;
    if (!take) return;
    const [clips, recordings] = await this.#soundsBeside(take);
    if (asked !== this.#takesAsked) return;
    this.#state.clips = clips;
    this.#state.recordings = recordings;
    this.#state.take = take;
    this.#stopAsked();
    this.#state.tell("take");
    // Before there is a rig nothing is rendered.
    this.#state.setProgress(this.#state.rig ? { done: 0, what: "rendering" } : null);
    if (!this.#state.rig) this.#state.setFault(null);
    void this.#render.update();
  }

  #soundsBeside(take: Take) {
    return Promise.all([this.#soundFiles.at(take.rateHz), pageRecordings(this.#page, take)]);
  }

  get soundFiles(): readonly string[] {
    return this.#soundFiles.names;
  }
  async loadSoundFile(file: File): Promise<void> {
    await this.#soundFiles.bring(file);
    const { take } = this.#state;
    if (take) this.#state.clips = await this.#soundFiles.at(take.rateHz);
    this.#state.tell("desk");
    this.#stopAsked();
    this.#render.rigTurned();
  }

  reel(): Reel | null {
    const { loop } = this.player;
    const span = loop.on ? { fromSeconds: loop.from, toSeconds: loop.to } : usualReel;
    const labels = (this.report?.routings ?? []).map(({ id, label }) => [id, label] as const);
    return this.#sound.reel(new Map([[dryId, "Dry take"], ...labels]), span);
  }
  routingWav(id: string): Blob {
    return this.#sound.wav(id);
  }
  get kept(): Bench["kept"] {
    return this.#state.kept;
  }
  keep(id: string, label: string): void {
    const { rig, kept } = this.#state;
    const before = kept.find((each) => each.id === id);
    const what = before ?? (rig && { routing: id, rig });
    if (!what) return;
    const taken = Object.keys(this.rig.wirings);
    this.#state.kept = withKept(kept, { label, routing: what.routing, rig: what.rig }, taken);
    this.#render.rigTurned();
  }
  forget(id: string): void {
    this.#state.kept = this.#state.kept.filter((each) => each.id !== id);
    this.#render.rigTurned();
  }
  savedPage(): Promise<SavedPage> {
    return savedPage(
      this.#page,
      { file: this.desk.file, text: this.desk.text },
      {
        rig: this.#state.rig,
        take: this.#state.take,
        report: this.#state.report,
        kept: this.#state.kept,
        clips: this.#soundFiles.toTravel(),
      },
    );
  }
  workOutSwitches(ids: readonly string[]): void {
    const { rig, take, clips } = this.#state;
    if (rig && take) void this.#switches.workOut({ rig, take, clips }, this.#ofTheRig(ids));
  }
  stopSwitches(): void {
    this.#switches.stop();
  }
  checkEngine(ids: readonly string[]): void {
    const { rig, take, clips } = this.#state;
    if (rig && take) void this.#check.check({ rig, take, clips }, this.#ofTheRig(ids));
  }
  stopCheck(): void {
    this.#check.stop();
  }

  #mostTakeFrames(rateHz: number): number {
    return mostTakeFrames(this.player.choices.length, rateHz, this.#page.inputs.tailSeconds);
  }

  #inputChanged(): void {
    if (this.input.state.kind !== "open") {
      this.recorder.inputEnded();
      this.capture.inputEnded();
    }
    this.#state.tell("input");
  }

  /** Without what was kept. */
  #ofTheRig(ids: readonly string[]): readonly string[] {
    return ids.filter((id) => !this.#state.kept.some((each) => each.id === id));
  }

  async #open(): Promise<void> {
    const state = this.#state;
    try {
      state.take = await pageTake(this.#page);
      if (state.take) [state.clips, state.recordings] = await this.#soundsBeside(state.take);
    } catch (error) {
      state.fail(error);
      return;
    }
    state.tell("take");
    if (!state.take) state.fail(new UserError(noTake));
    else if (state.rig) await this.#render.update();
    else state.setProgress(null);
  }

  /** What is heard first is what to build. */
  #beginWithAnswer(): void {
    const answer = answerIdOf(this, this.#page.data);
    if (answer !== null) this.player.suggest(answer);
  }

  #turn(what: string, rig: Rig): void {
    this.desk.edit(what, turnedEdits(this.rig, rig));
  }

  /** The text is another: a rig in it is heard from now on; while there is none, the last one stays. */
  #rigEdited({ rig }: CheckedRig): void {
    const { file, text } = this.desk;
    this.isWorkKept = this.#stored.write({ file, text });
    this.#state.tell("desk");
    if (rig) this.#use({ ...notInFile(this.#state.rig), ...rig });
    else if (this.desk.isUnheard) this.#putAway();
  }

  /** What was heard is of another rig than the one on the desk. */
  #putAway(): void {
    this.player.pause();
    this.#stopAsked();
    this.#state.rig = null;
    this.#render.putAway();
  }

  #use(rig: Rig): void {
    this.#state.rig = rig;
    this.#stopAsked();
    this.#render.rigTurned();
  }

  /** What was asked for belongs to another rig or take from now on. */
  #stopAsked(): void {
    this.#switches.stop();
    this.#check.stop();
  }
}

/** What a rig is known to be that no rig file says. */
function notInFile(rig: Rig | null): Pick<Rig, "returnTrims" | "leavesLoadingOut"> {
  const { returnTrims, leavesLoadingOut } = rig ?? {};
  return { ...(returnTrims && { returnTrims }), ...(leavesLoadingOut && { leavesLoadingOut }) };
}

const noTake = "no take came with this page, or it was too long to travel; bring or record one of your own";

/** Routings that can be played, recordings that came with the page, then the dry take. */
const choicesOf = ({ data: { report }, inputs }: PageInputs): readonly string[] => [
  ...(report ? renderedRoutings(report) : []).filter(({ possible }) => possible).map(({ id }) => id),
  ...inputs.recordings.map(({ id }) => id).filter((id) => report?.routings.some((each) => each.id === id)),
  dryId,
];
