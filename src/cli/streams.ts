/**
 * A reader that has seen enough closes the pipe (`| head`): that is no error, the work goes on, and its status is the
 * program's. What cannot be written for another reason, as on a full disk, is told, and the status is 1. Of standard
 * error nobody can be told.
 * Source: EPIPE, POSIX.1-2017, write().
 */
export function watchStreams(): void {
  process.stderr.on("error", () => {});
  let isTold = false;
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE" || isTold) return;
    isTold = true;
    const why = error.code === "ENOSPC" ? "the disk is full" : error.message;
    process.stderr.write(`splitsum: standard output: ${why}; the answer was not written whole.\n`);
    process.once("exit", () => {
      process.exitCode ||= 1;
    });
  });
}
