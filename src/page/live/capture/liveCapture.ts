import type { Clip } from "../../../sound/audio/clip.js";
import { encodeWav } from "../../../sound/audio/encodeWav.js";
import { uniqueFileNames } from "../../../text/fileName.js";
import { UserError } from "../../../text/userError.js";
import { lossNotices } from "../../../words/inputWords.js";
import { capturedAs } from "../../../work/capture/captured.js";
import { makeTone } from "../../../work/capture/makeTone.js";
import type { ToneSettings } from "../../../work/capture/toneSettings.js";
import type { Capture, CaptureOrder, CaptureState } from "../../contract/capture.js";
import type { Engine } from "../engine/engine.js";
import type { LiveInput } from "../input/liveInput.js";
import { RecordedSound } from "../record/recordedSound.js";
import { sha256Hex } from "../takeFiles/bytes.js";
import { type PlayedTone, playTone } from "./tonePlayer.js";

interface Surroundings {
  /** Called at every change of the state. */
  readonly tell: () => void;
  /** Ends what plays, so that it does not get into the recording. */
  readonly quiet: () => void;
  /** Names of sound files that are taken. */
  readonly soundFiles: () => readonly string[];
}

interface Run {
  readonly order: CaptureOrder;
  readonly sound: RecordedSound;
  readonly tone: ToneSettings;
  readonly played: PlayedTone;
  readonly beganMs: number;
  readonly lengthMs: number;
  deaf(): void;
}

/**
 * Recorded ahead of the tone: longer than what `capture` would take for the unit's latency, since the way through browser
 * and interface, which nobody knows without a cable, is in it.
 */
const leadMs = 300;
/** Recorded after it: what is on its way through browser and interface. */
const restMs = 700;

/** Measures a unit: the tone is played and recorded, and a worker reads the recording. */
export class LiveCapture implements Capture {
  state: CaptureState = { kind: "idle" };
  readonly #input: LiveInput;
  readonly #engine: Pick<Engine, "capture">;
  readonly #around: Surroundings;
  #run: Run | null = null;
  #work: AbortController | null = null;
  #recording: File | null = null;
  #response: { readonly clip: Clip; readonly name: string } | null = null;

  constructor(input: LiveInput, engine: Pick<Engine, "capture">, around: Surroundings) {
    this.#input = input;
    this.#engine = engine;
    this.#around = around;
  }

  get done(): number {
    const run = this.#run;
    return run ? Math.min(1, (performance.now() - run.beganMs) / run.lengthMs) : 0;
  }

  start(order: CaptureOrder): void {
    const { state } = this.#input;
    if (state.kind !== "open") throw new UserError("The input is closed. Use an audio input first.");
    const { unitChannel, cableChannel } = order;
    if (unitChannel === cableChannel)
      throw new UserError("Unit and cable come in on one channel. Choose another one for one of them.");
    const { rateHz } = state;
    const { clip, description } = makeTone({ ...order.tone, rateHz });
    this.stop();
    this.#around.quiet();
    this.#input.clearMarks();
    const beganMs = performance.now();
    const toneMs = 1000 * description.lengthSeconds;
    const lengthMs = leadMs + toneMs + restMs;
    const sound = new RecordedSound({
      rateHz,
      channels: cableChannel === null ? [unitChannel] : [unitChannel, cableChannel],
      fromMs: beganMs,
      mostFrames: Math.ceil(((lengthMs + restMs) / 1000) * rateHz),
    });
    const deaf = this.#input.hear((piece) => {
      sound.add(piece);
      if (sound.isComplete) void this.#read();
    });
    const silence = new Float32Array(Math.round((leadMs / 1000) * rateHz));
    const samples = new Float32Array(silence.length + clip.channels[0].length);
    samples.set(clip.channels[0], silence.length);
    const played = playTone(samples, rateHz, () => sound.endAt(performance.now() + restMs));
    this.#run = { order, sound, tone: description.tone, played, beganMs, lengthMs, deaf };
    this.#become({ kind: "playing" });
  }

  stop(): void {
    const isBusy = this.#run !== null || this.#work !== null;
    this.#endRun()?.played.hush();
    this.#work?.abort();
    this.#work = null;
    if (isBusy) this.#become({ kind: "idle" });
  }

  recording(): File | null {
    return this.#recording;
  }

  response(): File {
    if (!this.#response) throw new Error("no response was found");
    const { clip, name } = this.#response;
    return wavOf(clip, name);
  }

  /** The input is closed or gone: so is what was to be recorded. */
  inputEnded(): void {
    if (this.#run) this.stop();
  }

  #endRun(): Run | null {
    const run = this.#run;
    run?.deaf();
    this.#run = null;
    return run;
  }

  async #read(): Promise<void> {
    const run = this.#endRun();
    if (!run) return;
    const { order, sound, tone } = run;
    const work = new AbortController();
    this.#work = work;
    this.#become({ kind: "working" });
    const recording = { rateHz: sound.rateHz, channels: sound.channels() };
    const [name] = uniqueFileNames([order.unit]);
    this.#recording = wavOf(recording, `${name}.recorded.wav`);
    const words = {
      ...order.told,
      ...(order.cableChannel === null ? {} : { referenceChannel: "right" as const }),
    };
    try {
      const result = await this.#engine.capture(
        { kind: "capture", recording, tone, words },
        { signal: work.signal },
      );
      const sha256 = await sha256Hex(new Uint8Array(await this.#recording.arrayBuffer()));
      if (work.signal.aborted) return;
      if ("refused" in result) return this.#become({ kind: "refused", words: result.refused });
      const file = freeName(name, this.#around.soundFiles());
      this.#response = { clip: result.found.response, name: file };
      const recorded = { file: this.#recording.name, sha256, notices: lossNotices(sound.losses) };
      const captured = capturedAs(result.found, { recording: recorded, tone, file, name: file });
      this.#become({ kind: "found", unit: order.unit, captured });
    } catch (error) {
      if (work.signal.aborted) return;
      console.error(error);
      this.#become({ kind: "refused", words: error instanceof Error ? error.message : String(error) });
    } finally {
      if (this.#work === work) this.#work = null;
    }
  }

  #become(state: CaptureState): void {
    this.state = state;
    this.#around.tell();
  }
}

const wavOf = (clip: Clip, name: string): File =>
  new File([new Uint8Array(encodeWav(clip, 32, name))], name, { type: "audio/wav" });

/** A response of before goes on being heard where undo brings its rig back, so that a new one has a name of its own. */
function freeName(unit: string, taken: readonly string[]): string {
  for (let n = 1; ; n++) {
    const name = `${unit}${n === 1 ? "" : `-${n}`}.response.wav`;
    if (!taken.includes(name)) return name;
  }
}
