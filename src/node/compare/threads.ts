import { ownFile } from "../files/ownFile.js";
import { openPool, type Pool } from "../threads/pool.js";
import type { Job, Outcome } from "./renderJobs.js";

/** Threads for the jobs of a comparison. */
export type Threads = Pool<Job, Outcome>;

/** @param count 0: everything in the calling thread; unless told otherwise, one a core */
export const openThreads = (count?: number): Threads =>
  // The encoder of the page's FLAC has a thread of its own.
  openPool(ownFile("dist/threads/compare.js"), doJobHere, count, { besides: 1 });

/** Loaded only now: who works by threads needs none of it. */
async function doJobHere(job: Job): Promise<Outcome> {
  const { doJob } = await import("./renderJobs.js");
  return doJob(job);
}
