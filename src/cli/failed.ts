import { codeOf } from "../node/files/fileFault.js";
import { faultLine, UserError } from "../text/userError.js";
import { asCalled } from "./calledAs.js";
import { fewFilesText, isFewFiles } from "./fewFiles.js";
import { Stopped } from "./stoppable.js";

/** Tells on standard error what went wrong, and gives the exit status. */
export function failed(error: unknown): number {
  if (error instanceof Stopped) return error.exitStatus;
  if (error instanceof UserError) {
    const lines = error.faults.map((fault) =>
      asCalled(fault.file ? faultLine(fault) : `splitsum: ${faultLine(fault)}`),
    );
    process.stderr.write(`${lines.join("\n")}\n`);
    return error.exitStatus;
  }
  if (isFewFiles(error)) {
    process.stderr.write(fewFilesText);
    return 1;
  }
  // Closed pipes are met in `watchStreams`; other system errors are told by their own words.
  if (codeOf(error) !== null && error instanceof Error && "syscall" in error) {
    process.stderr.write(`splitsum: ${error.message}\n`);
    return 1;
  }
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(`splitsum: this is a fault of splitsum itself, please report it:\n${stack}\n`);
  return 1;
}
