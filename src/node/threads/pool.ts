import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { UserError } from "../../text/userError.js";
import { refuseFewAddresses } from "./addressSpace.js";
import { end, type ThreadAnswer, type ThreadData } from "./thread.js";

/** Runs jobs in threads, or in this one; `close` ends the threads, also in the middle of their work. */
export interface Pool<In, Out> {
  /** Jobs that run at once. */
  readonly count: number;
  /** @throws what the job threw; when a thread ended before its work was done, why, as all jobs from then on */
  run(job: In): Promise<Out>;
  close(): Promise<void>;
}

interface HeapLimits {
  readonly maxYoungGenerationSizeMb: number;
  readonly maxOldGenerationSizeMb: number;
}

export interface PoolOptions {
  /** Of each thread, for what is no sound: sound lies outside; unless given, the system's. */
  readonly heapLimits?: HeapLimits;
  /** Threads that libraries begin meanwhile. */
  readonly besides?: number;
}

/** More threads than this only wait for the disk. */
const mostThreads = 8;

/** Threads that are used: as asked for, or one a core; 0 is the calling thread, which hears of nothing meanwhile. */
export const threadCount = (asked?: number): number => asked ?? Math.min(mostThreads, availableParallelism());

/** Node runs a script that was given in words, not as a file: threads, which have a file, cannot inherit such flags. */
const isFromWords = process.execArgv.some((flag) => flag.startsWith("--input-type"));

/**
 * @param worker  path of a file that serves jobs (`serve`)
 * @param doJob   the same, for this thread
 */
export function openPool<In, Out>(
  worker: string,
  doJob: (job: In) => Promise<Out>,
  asked?: number,
  options: PoolOptions = {},
): Pool<In, Out> {
  const count = threadCount(asked);
  if (count === 0) return { count: 1, run: doJob, close: async () => {} };
  return new Threads<In, Out>(worker, count, options);
}

/** Threads look whether they are to end every few milliseconds; one that does not is ended from outside. */
const graceMs = 5000;

interface Task<In, Out> {
  readonly job: In;
  readonly resolve: (result: Out) => void;
  readonly reject: (why: unknown) => void;
}

/** One thread's end is the end of all: parts of one work wait for each other. */
class Threads<In, Out> implements Pool<In, Out> {
  readonly count: number;
  readonly #stop = new Int32Array(new SharedArrayBuffer(4));
  /** Every thread that is ready, and what it does. */
  readonly #tasks = new Map<Worker, Task<In, Out> | null>();
  readonly #waiting: Task<In, Out>[] = [];
  /** Those that load their modules: they hear of nothing meanwhile, and do nothing. */
  readonly #starting = new Set<Worker>();
  readonly #ends = new Map<Worker, Promise<void>>();
  #over: { readonly why: unknown } | null = null;

  constructor(worker: string, count: number, { heapLimits, besides = 0 }: PoolOptions) {
    this.count = count;
    try {
      refuseFewAddresses(count + besides);
      for (let n = 0; n < count; n++) this.#start(worker, heapLimits);
    } catch (error) {
      this.#end(error);
    }
  }

  run(job: In): Promise<Out> {
    return new Promise((resolve, reject) => {
      if (this.#over) return reject(this.#over.why);
      this.#waiting.push({ job, resolve, reject });
      this.#handOut();
    });
  }

  async close(): Promise<void> {
    this.#end(new Error("the threads were closed"));
    const timer = setTimeout(() => {
      for (const thread of this.#tasks.keys()) void thread.terminate();
    }, graceMs);
    await Promise.all([...this.#tasks.keys()].map((thread) => this.#ends.get(thread)));
    clearTimeout(timer);
  }

  #start(worker: string, heapLimits: HeapLimits | undefined): void {
    const workerData: ThreadData = { stop: this.#stop };
    const thread = new Worker(worker, {
      workerData,
      ...(heapLimits ? { resourceLimits: heapLimits } : {}),
      ...(isFromWords ? { execArgv: [] } : {}),
    });
    this.#starting.add(thread);
    thread.on("message", (answer: ThreadAnswer<Out>) => {
      if (this.#starting.delete(thread)) {
        this.#tasks.set(thread, null);
        return this.#handOut();
      }
      const task = this.#tasks.get(thread);
      this.#tasks.set(thread, null);
      if ("result" in answer) task?.resolve(answer.result);
      else if ("error" in answer) task?.reject(answer.error);
      else task?.reject(new UserError(answer.mend.faults, answer.mend.exitStatus));
      this.#handOut();
    });
    thread.on("messageerror", (error) => this.#end(error));
    thread.on("error", (error) => this.#end(error));
    const ended = new Promise<void>((resolve) => {
      thread.on("exit", (code) => {
        this.#end(new Error(`a thread ended by itself, status ${code}`));
        this.#tasks.delete(thread);
        this.#starting.delete(thread);
        resolve();
      });
    });
    this.#ends.set(thread, ended);
  }

  #handOut(): void {
    for (const [thread, task] of this.#tasks) {
      if (task !== null || this.#over) continue;
      const next = this.#waiting.shift();
      if (next === undefined) return;
      this.#tasks.set(thread, next);
      try {
        thread.postMessage(next.job);
      } catch (error) {
        this.#tasks.set(thread, null);
        next.reject(error);
      }
    }
  }

  /** The first reason counts. */
  #end(why: unknown): void {
    if (this.#over) return;
    this.#over = { why };
    Atomics.store(this.#stop, 0, 1);
    for (const task of [...this.#tasks.values(), ...this.#waiting.splice(0)]) task?.reject(why);
    for (const thread of [...this.#tasks.keys(), ...this.#starting]) thread.postMessage(end);
  }
}
