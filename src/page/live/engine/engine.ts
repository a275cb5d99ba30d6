import type { ReturnTrims } from "../../../rig/model/rig.js";
import type { StateLevels } from "../../../work/switches/measureStates.js";
import type { CaptureJob, CaptureResult } from "./captureJob.js";
import type {
  EngineJob,
  FiguresJob,
  FiguresResult,
  PageReturnsJob,
  ResponsesJob,
  ResponsesResult,
  SoundJob,
  SoundResult,
  SwitchStatesJob,
} from "./engineJobs.js";
import type { FromWorker, ToWorker } from "./engineMessages.js";

export interface RunOptions {
  /** Ends the job, also in the middle of it; the promise then rejects with the signal's reason. */
  readonly signal: AbortSignal;
  /** Told every 50 ms how many frames are done. */
  readonly onFrames?: (frames: number) => void;
}

/**
 * Workers that render and measure off the main thread, one job each at a time. A worker cannot be asked to stop while
 * it computes (from file:// there is no shared memory), so an aborted job's worker is ended and a fresh one started.
 */
export class Engine {
  readonly count: number;
  readonly #url: string;
  readonly #fftBinary: Uint8Array;
  readonly #idle: Worker[];
  readonly #waiting: ((worker: Worker) => void)[] = [];

  /**
   * @param source     script of the worker
   * @param fftBinary  bytes of the FFT's WebAssembly module
   * @param count      workers; more than cores are of no use
   */
  constructor(source: string, fftBinary: Uint8Array, count: number) {
    this.count = count;
    this.#url = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
    this.#fftBinary = fftBinary;
    this.#idle = Array.from({ length: count }, () => this.#start());
  }

  async sound(job: SoundJob, options: RunOptions): Promise<SoundResult> {
    const answer = await this.#run(job, options);
    if (answer.kind !== "sound") throw new Error(`the engine gave ${answer.kind} for sound`);
    return answer.result;
  }

  async responses(job: ResponsesJob, options: RunOptions): Promise<ResponsesResult> {
    const answer = await this.#run(job, options);
    if (answer.kind !== "responses") throw new Error(`the engine gave ${answer.kind} for responses`);
    return answer.result;
  }

  async figures(job: FiguresJob, options: RunOptions): Promise<FiguresResult> {
    const answer = await this.#run(job, options);
    if (answer.kind !== "figures") throw new Error(`the engine gave ${answer.kind} for figures`);
    return answer.result;
  }

  async states(job: SwitchStatesJob, options: RunOptions): Promise<readonly StateLevels[]> {
    const answer = await this.#run(job, options);
    if (answer.kind !== "states") throw new Error(`the engine gave ${answer.kind} for states`);
    return answer.result;
  }

  async returns(job: PageReturnsJob, options: RunOptions): Promise<ReturnTrims> {
    const answer = await this.#run(job, options);
    if (answer.kind !== "returns") throw new Error(`the engine gave ${answer.kind} for returns`);
    return answer.result;
  }

  async capture(job: CaptureJob, options: RunOptions): Promise<CaptureResult> {
    const answer = await this.#run(job, options);
    if (answer.kind !== "capture") throw new Error(`the engine gave ${answer.kind} for a capture`);
    return answer.result;
  }

  async #run(job: EngineJob, { signal, onFrames = () => {} }: RunOptions): Promise<FromWorker> {
    signal.throwIfAborted();
    const worker = await this.#take();
    if (signal.aborted) {
      this.#give(worker);
      throw signal.reason;
    }
    let isSpent = true;
    try {
      const answer = await ask(worker, job, signal, onFrames);
      isSpent = false;
      return answer;
    } finally {
      if (isSpent) worker.terminate();
      this.#give(isSpent ? this.#start() : worker);
    }
  }

  #start(): Worker {
    const worker = new Worker(this.#url);
    post(worker, { kind: "start", fftBinary: this.#fftBinary });
    return worker;
  }

  #take(): Promise<Worker> {
    const worker = this.#idle.pop();
    return worker ? Promise.resolve(worker) : new Promise((resolve) => this.#waiting.push(resolve));
  }

  #give(worker: Worker): void {
    const next = this.#waiting.shift();
    if (next) next(worker);
    else this.#idle.push(worker);
  }
}

const post = (worker: Worker, message: ToWorker): void => worker.postMessage(message);

/** Sends a job and waits for its result. */
function ask(
  worker: Worker,
  job: EngineJob,
  signal: AbortSignal,
  onFrames: (frames: number) => void,
): Promise<FromWorker> {
  return new Promise((resolve, reject) => {
    const abort = () => reject(signal.reason);
    signal.addEventListener("abort", abort, { once: true });
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if (data.kind === "progress") return onFrames(data.frames);
      signal.removeEventListener("abort", abort);
      if (data.kind === "fault") reject(new Error(data.message));
      else resolve(data);
    };
    worker.onerror = (event) => reject(new Error(`the engine failed: ${event.message}`));
    post(worker, { kind: "job", job });
  });
}
