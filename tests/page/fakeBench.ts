import type { Bench, BenchChange } from "../../src/page/contract/bench.js";
import type { Capture } from "../../src/page/contract/capture.js";
import type { EngineCheck, Switches } from "../../src/page/contract/onDemand.js";
import type { Player } from "../../src/page/contract/player.js";
import type { Recorder } from "../../src/page/contract/recorder.js";
import type { SoundInput } from "../../src/page/contract/soundInput.js";
import type { StereoField } from "../../src/page/contract/stereoField.js";
import { LiveDesk } from "../../src/page/live/desk/liveDesk.js";
import { toYaml } from "../../src/rig/file/toYaml.js";
import type { Pedal, Rig } from "../../src/rig/model/rig.js";
import { wiringOf } from "../../src/rig/routings/routingsOf.js";
import type { SettingValue } from "../../src/sound/dsp/kernel.js";
import type { Report } from "../../src/work/compare/report.js";

/** What a fake bench stands on: plain JSON, made by `fakeFacts` from a real comparison. */
export interface FakeFacts {
  readonly rig: Rig;
  readonly report: Report;
  readonly fields: readonly {
    readonly id: string;
    readonly size: number;
    readonly cells: readonly number[];
  }[];
  readonly peaks: readonly number[];
}

/** A bench without sound: it keeps what it is told, so that the face can be tried alone. `calls` lists it all. */
export class FakeBench implements Bench {
  rig: Rig;
  readonly desk: LiveDesk;
  readonly isWorkKept = true;
  readonly #cameWith: Rig;
  takeName: string;
  report: Report | null;
  readonly fields: ReadonlyMap<string, StereoField>;
  progress: Bench["progress"] = null;
  readonly player: FakePlayer;
  overview: Float32Array;
  fault: string | null = null;
  engineCheck: EngineCheck = { found: null, isCurrent: false, progress: null, fault: null };
  switches: Switches = { found: null, isCurrent: false, progress: null, fault: null };
  /** Closed for ever: recording is tried on the real bench. */
  readonly input: SoundInput = {
    state: { kind: "closed" },
    devices: [],
    levels: [],
    open: async () => {},
    close() {},
    clearMarks() {},
  };
  readonly recorder: Recorder = {
    state: { kind: "idle" },
    seconds: 0,
    isListening: false,
    start() {},
    stop() {},
    listen() {},
    stopListening() {},
    file: () => new File([], "none.wav"),
    discard() {},
  };
  readonly capture: Capture = {
    state: { kind: "idle" },
    done: 0,
    start() {},
    stop() {},
    recording: () => null,
    response: () => new File([], "none.wav"),
  };
  readonly calls: string[] = [];
  readonly #listeners = new Set<(change: BenchChange) => void>();

  constructor({ rig, report, fields, peaks }: FakeFacts) {
    this.rig = rig;
    this.#cameWith = rig;
    this.desk = new LiveDesk({ file: "rig.yaml", text: toYaml(rig) }, (checked) => {
      this.tell("desk");
      if (checked.rig) this.rig = checked.rig;
      this.tell("rig");
    });
    this.report = report;
    this.takeName = report.take.file;
    this.overview = Float32Array.from(peaks);
    this.fields = new Map(
      fields.map(({ id, size, cells }) => [id, { size, cells: Float32Array.from(cells) }]),
    );
    const gains = new Map(report.routings.map(({ id, matchGainDb }) => [id, matchGainDb ?? 0]));
    const choices = [...report.routings.filter(({ possible }) => possible).map(({ id }) => id), "dry"];
    const lengthSeconds = report.frames / report.take.rateHz;
    this.player = new FakePlayer(choices, lengthSeconds, gains, (call) => {
      this.calls.push(call);
      this.tell("player");
    });
  }
  wiringOf(id: string) {
    return wiringOf(this.rig, id);
  }
  listen(listener: (change: BenchChange) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
  tell(change: BenchChange): void {
    for (const listener of this.#listeners) listener(change);
  }
  setSetting(pedal: string, key: string, value: SettingValue): void {
    this.calls.push(`setSetting ${pedal} ${key} ${value}`);
    this.#change(pedal, (old) => ({ ...old, settings: { ...old.settings, [key]: value } }));
  }
  setUnit(pedal: string, change: Partial<Pedal>): void {
    this.calls.push(`setUnit ${pedal} ${JSON.stringify(change)}`);
    this.#change(pedal, (old) => ({ ...old, ...change }));
  }
  setMixer(change: Partial<Rig["mixer"]>): void {
    this.calls.push(`setMixer ${JSON.stringify(change)}`);
    this.rig = { ...this.rig, mixer: { ...this.rig.mixer, ...change } };
    this.tell("rig");
  }
  setLoading(heard: boolean): void {
    this.calls.push(`setLoading ${heard}`);
    this.rig = { ...this.rig, leavesLoadingOut: !heard };
  }
  setKnobs(settings: Readonly<Record<string, SettingValue>>): void {
    this.calls.push(`setKnobs ${JSON.stringify(settings)}`);
    this.tell("rig");
  }
  reset(): void {
    this.calls.push("reset");
    this.rig = this.#cameWith;
    this.tell("rig");
  }
  readonly takeNames: readonly string[] = [];
  async chooseTake(place: number): Promise<void> {
    this.calls.push(`chooseTake ${place}`);
  }
  reel(): null {
    this.calls.push("reel");
    return null;
  }
  async loadTake(file: File): Promise<void> {
    this.calls.push(`loadTake ${file.name}`);
    if (!/\.wav$/.test(file.name))
      throw new Error(`${file.name}: is not a recording. Choose a WAV, FLAC or MP3 file.`);
    this.takeName = file.name;
    this.tell("take");
  }
  readonly soundFiles: string[] = [];
  async loadSoundFile(file: File): Promise<void> {
    this.calls.push(`loadSoundFile ${file.name}`);
    if (file.size === 0) throw new Error(`${file.name}: is empty (0 bytes). Export it again.`);
    this.soundFiles.push(file.name);
    this.tell("desk");
  }
  routingWav(id: string): Blob {
    this.calls.push(`routingWav ${id}`);
    return new Blob(["RIFF"], { type: "audio/wav" });
  }
  readonly kept: Bench["kept"] = [];
  keep(id: string, label: string): void {
    this.calls.push(`keep ${id} ${label}`);
  }
  forget(id: string): void {
    this.calls.push(`forget ${id}`);
  }
  async savedPage() {
    return { html: "<!doctype html>", leftOut: null };
  }
  workOutSwitches(ids: readonly string[]): void {
    this.calls.push(`workOutSwitches ${ids.join(" ")}`);
    this.switches = { ...this.switches, progress: { done: 0, what: "rendering" } };
    this.tell("switches");
  }
  stopSwitches(): void {
    this.calls.push("stopSwitches");
    this.switches = { ...this.switches, progress: null };
    this.tell("switches");
  }
  checkEngine(ids: readonly string[]): void {
    this.calls.push(`checkEngine ${ids.join(" ")}`);
  }
  stopCheck(): void {
    this.calls.push("stopCheck");
  }
  #change(name: string, change: (pedal: Pedal) => Pedal): void {
    this.rig = {
      ...this.rig,
      pedals: this.rig.pedals.map((pedal) => (pedal.name === name ? change(pedal) : pedal)),
    };
    this.tell("rig");
  }
}

class FakePlayer implements Player {
  chosen: string;
  playing = false;
  position = 0;
  loop: Player["loop"];
  matched = true;
  folded = false;
  volumeDb = -18;
  readonly choices: readonly string[];
  readonly lengthSeconds: number;
  readonly #gains: ReadonlyMap<string, number>;
  readonly #told: (call: string) => void;
  constructor(
    choices: readonly string[],
    lengthSeconds: number,
    gains: ReadonlyMap<string, number>,
    told: (call: string) => void,
  ) {
    this.choices = choices;
    this.lengthSeconds = lengthSeconds;
    this.#gains = gains;
    this.#told = told;
    this.chosen = choices[0];
    this.loop = { on: false, from: 0, to: lengthSeconds };
  }
  gainDb(id: string): number {
    return this.matched ? (this.#gains.get(id) ?? 0) : -1.5;
  }
  play(): void {
    this.playing = true;
    this.#told("play");
  }
  pause(): void {
    this.playing = false;
    this.#told("pause");
  }
  seek(seconds: number): void {
    this.position = seconds;
    this.#told(`seek ${seconds.toFixed(2)}`);
  }
  choose(id: string): void {
    this.chosen = id;
    this.#told(`choose ${id}`);
  }
  setLoop(change: Partial<Player["loop"]>): void {
    this.loop = { ...this.loop, ...change };
    this.#told(`setLoop ${JSON.stringify(change)}`);
  }
  setMatched(on: boolean): void {
    this.matched = on;
    this.#told(`setMatched ${on}`);
  }
  setFolded(on: boolean): void {
    this.folded = on;
    this.#told(`setFolded ${on}`);
  }
  setVolumeDb(db: number): void {
    this.volumeDb = db;
    this.#told(`setVolumeDb ${db}`);
  }
  playBlind(id: string): void {
    this.chosen = id;
    this.#told(`playBlind ${id}`);
  }
}
