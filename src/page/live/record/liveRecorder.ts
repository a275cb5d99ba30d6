import { encodeWav } from "../../../sound/audio/encodeWav.js";
import { dbToGain } from "../../../sound/dsp/units.js";
import { recordingNotices } from "../../../words/inputWords.js";
import type { CountIn, RecordedFacts, Recorder, RecorderState } from "../../contract/recorder.js";
import { dbfs, isFullScale, peakOf } from "../input/inputLevels.js";
import type { InputPiece } from "../input/inputTap.js";
import type { LiveInput } from "../input/liveInput.js";
import { playClicks } from "./clicks.js";
import { type CountPlan, countPlan, countsLeft } from "./countIn.js";
import { RecordedSound } from "./recordedSound.js";
import { afterStep, type RecorderStep } from "./recorderSteps.js";

interface Surroundings {
  /** Called at every change of the state. */
  readonly tell: () => void;
  /** Longest take that there is memory for, at a rate, in frames. */
  readonly mostFrames: (rateHz: number) => number;
  /** Ends what plays, so that it does not get into the recording. */
  readonly quiet: () => void;
  /** Of the page, for clicks and for listening. */
  readonly volumeDb: () => number;
}

/** A count-in or a recording under way. */
interface Run {
  readonly sound: RecordedSound;
  readonly plan: CountPlan;
  readonly beganMs: number;
  /** Ends clicks, timer and hearing. */
  end(): void;
}

/** A player is a little ahead of the beat at times; so much ahead of it is kept. */
const earlyMs = 100;
const tickMs = 40;
/** Pieces of the slowest tap come this far apart. */
const lastPieceMs = 800;

/** Records from the input; what was recorded stays in memory until it is discarded. */
export class LiveRecorder implements Recorder {
  state: RecorderState = { kind: "idle" };
  /** Something was recorded and not handed out. */
  wouldBeLost = false;
  readonly #input: LiveInput;
  readonly #around: Surroundings;
  #run: Run | null = null;
  #kept: { readonly rateHz: number; readonly channels: readonly Float32Array[] } | null = null;
  #listening: AudioContext | null = null;

  constructor(input: LiveInput, around: Surroundings) {
    this.#input = input;
    this.#around = around;
  }

  get seconds(): number {
    return this.#run?.sound.seconds ?? 0;
  }
  get isListening(): boolean {
    return this.#listening !== null;
  }

  start(channels: readonly number[], countIn: CountIn): void {
    const { state } = this.#input;
    if (state.kind !== "open") throw new Error("the input is closed");
    const plan = countPlan(countIn);
    this.#step(plan.lengthMs > 0 ? { kind: "count", left: plan.atMs.length } : { kind: "record" });
    this.#around.quiet();
    this.#input.clearMarks();
    const { rateHz } = state;
    const beganMs = performance.now();
    const early = plan.lengthMs > 0 ? earlyMs : 0;
    const sound = new RecordedSound({
      rateHz,
      channels,
      fromMs: beganMs + plan.lengthMs - early,
      mostFrames: this.#around.mostFrames(rateHz),
    });
    const deaf = this.#input.hear((piece) => this.#take(piece));
    const ticking = setInterval(() => this.#tick(), tickMs);
    const hush =
      countIn.kind === "beats" ? playClicks(plan, dbToGain(this.#around.volumeDb()), rateHz) : () => {};
    const end = () => {
      deaf();
      clearInterval(ticking);
      hush();
    };
    this.#run = { sound, plan, beganMs, end };
  }

  stop(): void {
    const run = this.#run;
    if (!run) return;
    if (this.state.kind === "counting") this.#finish(run);
    else {
      run.sound.endAt(performance.now());
      setTimeout(() => this.#finish(run), lastPieceMs);
    }
  }

  listen(): void {
    const kept = this.#kept;
    if (!kept) return;
    this.stopListening();
    this.#around.quiet();
    const { rateHz, channels } = kept;
    const context = new AudioContext({ sampleRate: rateHz });
    const buffer = new AudioBuffer({
      length: channels[0].length,
      numberOfChannels: channels.length,
      sampleRate: rateHz,
    });
    channels.forEach((samples, n) => {
      buffer.getChannelData(n).set(samples);
    });
    const level = context.createGain();
    level.gain.value = dbToGain(this.#around.volumeDb());
    const source = new AudioBufferSourceNode(context, { buffer });
    source.connect(level).connect(context.destination);
    source.onended = () => {
      if (this.#listening === context) this.stopListening();
    };
    source.start();
    this.#listening = context;
    this.#around.tell();
  }

  stopListening(): void {
    if (!this.#listening) return;
    void this.#listening.close();
    this.#listening = null;
    this.#around.tell();
  }

  file(): File {
    if (!this.#kept || this.state.kind !== "ready") throw new Error("nothing was recorded");
    const { name } = this.state.facts;
    this.wouldBeLost = false;
    return new File([new Uint8Array(encodeWav(this.#kept, 32, name))], name, { type: "audio/wav" });
  }

  discard(): void {
    this.stopListening();
    this.#kept = null;
    this.wouldBeLost = false;
    this.#step({ kind: "discard" });
  }

  /** The input is closed or gone: what came in till then is kept. */
  inputEnded(): void {
    if (this.#run) this.#finish(this.#run);
  }

  #take(piece: InputPiece): void {
    const run = this.#run;
    if (!run) return;
    run.sound.add(piece);
    if (run.sound.isComplete) this.#finish(run);
  }

  #tick(): void {
    const run = this.#run;
    if (!run || this.state.kind !== "counting") return;
    const ms = performance.now() - run.beganMs;
    const left = countsLeft(run.plan, ms);
    if (ms >= run.plan.lengthMs) this.#step({ kind: "record" });
    else if (left !== this.state.left) this.#step({ kind: "count", left });
  }

  #finish(run: Run): void {
    if (this.#run !== run) return;
    this.#run = null;
    run.end();
    const isCounting = this.state.kind === "counting";
    const facts = isCounting || run.sound.frames === 0 ? null : this.#keep(run.sound);
    this.#step({ kind: "end", facts });
  }

  #keep(sound: RecordedSound): RecordedFacts {
    const { state } = this.#input;
    const channels = sound.channels();
    const { rateHz } = sound;
    this.#kept = { rateHz, channels };
    this.wouldBeLost = true;
    const peak = channels.reduce((most, samples) => Math.max(most, peakOf(samples)), 0);
    return {
      name: recordingName(new Date()),
      seconds: sound.seconds,
      rateHz,
      channels: channels.length === 2 ? 2 : 1,
      peakDbfs: dbfs(peak),
      isClipped: isFullScale(peak),
      notices: recordingNotices({
        losses: sound.losses,
        isFull: sound.isFull,
        isGone: state.kind === "refused",
        isSilent: peak === 0,
      }),
    };
  }

  #step(step: RecorderStep): void {
    this.state = afterStep(this.state, step);
    this.#around.tell();
  }
}

/** "take 2026-11-26 21.04.09.wav", by the clock on the wall; no sign that a disk refuses. */
function recordingName(now: Date): string {
  const two = (number: number) => String(number).padStart(2, "0");
  const day = [now.getFullYear(), two(now.getMonth() + 1), two(now.getDate())].join("-");
  const time = [now.getHours(), now.getMinutes(), now.getSeconds()].map(two).join(".");
  return `take ${day} ${time}.wav`;
}
