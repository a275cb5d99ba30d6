import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import { doJob, type Job, type Outcome } from "./jobs.js";

/** Runs jobs, in this thread or in several; `close` ends the threads, also in the middle of their work. */
export interface Threads {
  readonly count: number;
  run(job: Job): Promise<Outcome>;
  close(): Promise<void>;
}

/** More threads than this only wait for the disk. */
const mostThreads = 8;

/** @param count 1: everything in the calling thread; unless told otherwise, one a core */
export function openThreads(count = Math.min(mostThreads, availableParallelism())): Threads {
  if (count <= 1) return { count: 1, run: doJob, close: async () => {} };
  const pool = new Piscina({
    filename: new URL("./worker.js", import.meta.url).href,
    name: "run",
    minThreads: count,
    maxThreads: count,
    idleTimeout: Number.POSITIVE_INFINITY,
  });
  return { count, run: (job) => pool.run(job), close: () => pool.destroy() };
}
