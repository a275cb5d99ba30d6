import { parentPort, workerData } from "node:worker_threads";
import { UserError } from "../../text/userError.js";

/** What a thread of a pool is told at its start; it tells its own threads from others that the program may have. */
export interface ThreadData {
  /** Not 0: all threads of the pool are to end. */
  readonly stop: Int32Array;
}

/** What a thread says first. */
const ready = "ready";

/** What a thread says of a job; what a person can mend travels as data, since errors lose their fields between threads. */
export type ThreadAnswer<Out> =
  | { readonly result: Out }
  | { readonly mend: Pick<UserError, "faults" | "exitStatus"> }
  | { readonly error: unknown };

/** The message after which a thread ends by itself. */
export const end = "end";

/** Thrown through a job whose thread is to end. */
class ThreadStopped extends Error {}

/** Does jobs for the pool that started this thread, one at a time, until it is told to end. */
export function serve<In, Out>(doJob: (job: In) => Promise<Out>): void {
  const port = parentPort;
  if (port === null) throw new Error("serve: is for threads of a pool");
  port.on("message", async (job: In | typeof end) => {
    if (job === end) return port.close();
    port.postMessage(await answerTo(doJob, job));
  });
  port.postMessage(ready);
}

async function answerTo<In, Out>(doJob: (job: In) => Promise<Out>, job: In): Promise<ThreadAnswer<Out>> {
  try {
    stopIfTold();
    return { result: await doJob(job) };
  } catch (error) {
    if (!(error instanceof UserError)) return { error };
    const { faults, exitStatus } = error;
    return { mend: { faults, exitStatus } };
  }
}

/**
 * To be called every few milliseconds of work: a thread is not ended from outside, which at some moments of its life
 * ends the program (Node 20).
 */
export function stopIfTold(): void {
  if (stop !== null && Atomics.load(stop, 0) !== 0) throw new ThreadStopped("the thread is to end");
}

const stop = stopIn(workerData);

function stopIn(data: unknown): Int32Array | null {
  const isOurs = typeof data === "object" && data !== null && "stop" in data;
  return isOurs && data.stop instanceof Int32Array ? data.stop : null;
}
