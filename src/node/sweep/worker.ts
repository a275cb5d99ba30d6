import { doSweepJob, type SweepJob, type SweepOutcome } from "./sweepJobs.js";

/** What a worker thread of the pool runs. */
export const run = (job: SweepJob): Promise<SweepOutcome> => doSweepJob(job);
