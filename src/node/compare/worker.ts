import { doJob, type Job, type Outcome } from "./renderJobs.js";

/** What a worker thread of the pool runs. */
export const run = (job: Job): Promise<Outcome> => doJob(job);
