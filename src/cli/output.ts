/** The answer, to standard output. Ends in one line end. */
export function print(text: string): void {
  process.stdout.write(text.endsWith("\n") ? text : `${text}\n`);
}

/** A remark beside the answer, to standard error. */
export function remark(text: string): void {
  process.stderr.write(`${text}\n`);
}
