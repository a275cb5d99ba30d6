/** Work was stopped by Ctrl-C (130) or by the system (143): 128 and the number of the signal, as shells have it. */
export class Stopped extends Error {
  readonly exitStatus: 130 | 143;
  constructor(signal: NodeJS.Signals) {
    super("stopped");
    this.name = "Stopped";
    this.exitStatus = signal === "SIGINT" ? 130 : 143;
  }
}

/**
 * Runs work that must clean up when it is stopped. The first Ctrl-C aborts the signal given to it, and it ends by
 * throwing the signal's reason; the second ends the program at once.
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
  process.on("SIGINT", stop);
  process.on("SIGTERM", stop);
  try {
    const result = await work(controller.signal);
    controller.signal.throwIfAborted();
    return result;
  } finally {
    process.off("SIGINT", stop);
    process.off("SIGTERM", stop);
  }
}
