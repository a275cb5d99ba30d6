/**
 * Runs `cleanUp` when a person presses Ctrl-C or the system asks the program to end, then ends it with status 130 or
 * 143. A second Ctrl-C kills at once. Without it, half-written files would stay.
 *
 * Signals are only heard between tasks: long work must give way from time to time (an `await` of a timer or of a
 * worker).
 *
 * @param cleanUp  short and synchronous; its failure is ignored, since there is nobody left to tell
 * @returns a function that takes the watch off again, once the files are complete
 * Source: exit status 128 + signal number, common practice of POSIX shells.
 */
export function onInterrupt(cleanUp: () => void): () => void {
  const stop = (signal: NodeJS.Signals) => {
    release();
    try {
      cleanUp();
    } finally {
      process.exit(signal === "SIGINT" ? 130 : 143);
    }
  };
  const release = () => {
    process.off("SIGINT", stop);
    process.off("SIGTERM", stop);
  };
  process.on("SIGINT", stop);
  process.on("SIGTERM", stop);
  return release;
}
