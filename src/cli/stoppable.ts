import { constants } from "node:os";
import { watchClearings } from "../node/files/clearAtEnd.js";

const signals = ["SIGINT", "SIGTERM", "SIGHUP"] as const;

/** Work was stopped by Ctrl-C (130), by the system (143) or by a terminal that went (129): 128 and the signal's number. */
export class Stopped extends Error {
  readonly exitStatus: number;
  constructor(signal: NodeJS.Signals) {
    super("stopped");
    this.name = "Stopped";
    this.exitStatus = 128 + constants.signals[signal];
  }
}

/**
 * Runs work that must clear up when it is stopped. The first Ctrl-C aborts the signal given to it, and it ends by
 * throwing the signal's reason; the second ends the program at once. While there is nothing on the disk to clear up, the
 * first ends it at once too, also in the middle of a computation.
 * @param onStop  called at the first, before the remark on standard error
 */
export async function stoppable<T>(
  work: (signal: AbortSignal) => Promise<T>,
  onStop: () => void = () => {},
): Promise<T> {
  const controller = new AbortController();
  const stop = (signal: NodeJS.Signals) => {
    const stopped = new Stopped(signal);
    if (controller.signal.aborted) process.exit(stopped.exitStatus);
    onStop();
    process.stderr.write("splitsum: stopping; once more ends at once.\n");
    controller.abort(stopped);
  };
  const unwatch = watchClearings((isAny) => {
    for (const signal of signals) {
      if (isAny) process.on(signal, stop);
      else if (!controller.signal.aborted) process.off(signal, stop);
    }
  });
  try {
    const result = await work(controller.signal);
    controller.signal.throwIfAborted();
    return result;
  } finally {
    unwatch();
    for (const signal of signals) process.off(signal, stop);
  }
}
