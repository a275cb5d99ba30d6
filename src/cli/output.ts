/**
 * A reader that has seen enough closes the pipe (`| head`): that is no error, and the program ends quietly.
 * Source: EPIPE, POSIX.1-2017, write().
 */
export function quietlyOnClosedPipe(): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EPIPE") process.exit(0);
      throw error;
    });
  }
}

/** The answer, to standard output. Ends in one line end. */
export function print(text: string): void {
  process.stdout.write(text.endsWith("\n") ? text : `${text}\n`);
}

/** A remark beside the answer, to standard error. */
export function remark(text: string): void {
  process.stderr.write(`${text}\n`);
}
