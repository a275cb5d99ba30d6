import { availableParallelism } from "node:os";
import { Piscina } from "piscina";

/** Runs jobs, in this thread or in several; `close` ends the threads, also in the middle of their work. */
export interface Pool<In, Out> {
  readonly count: number;
  run(job: In): Promise<Out>;
  close(): Promise<void>;
}

export interface HeapLimits {
  readonly maxYoungGenerationSizeMb: number;
  readonly maxOldGenerationSizeMb: number;
}

/** More threads than this only wait for the disk. */
const mostThreads = 8;

/** Threads that are used: as asked for, or one a core. */
export const threadCount = (asked?: number): number => asked ?? Math.min(mostThreads, availableParallelism());

/**
 * @param worker  file whose export `run` does a job
 * @param doJob   the same, for this thread
 * @param heapLimits  of each thread, for what is no sound: sound lies outside; unless given, the system's
 */
export function openPool<In, Out>(
  worker: URL,
  doJob: (job: In) => Promise<Out>,
  asked?: number,
  heapLimits?: HeapLimits,
): Pool<In, Out> {
  const count = threadCount(asked);
  if (count <= 1) return { count: 1, run: doJob, close: async () => {} };
  const pool = new Piscina({
    filename: worker.href,
    name: "run",
    minThreads: count,
    maxThreads: count,
    idleTimeout: Number.POSITIVE_INFINITY,
    ...(heapLimits ? { resourceLimits: heapLimits } : {}),
  });
  return { count, run: (job) => pool.run(job), close: () => pool.destroy() };
}
