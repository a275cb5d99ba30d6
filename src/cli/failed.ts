import { codeOf } from "../node/files/fileFault.js";
import { faultLine, UserError } from "../text/userError.js";
import { asCalled } from "./calledAs.js";
import { fewFilesText, isFewFiles } from "./fewFiles.js";
import { isOutOfMemory, outOfMemoryText } from "./outOfMemory.js";
import { remark } from "./output.js";
import { Stopped } from "./stoppable.js";

/** Tells on standard error what went wrong, and gives the exit status. */
export function failed(error: unknown): number {
  if (error instanceof Stopped) return error.exitStatus;
  if (error instanceof UserError) {
    const lines = error.faults.map((fault) =>
      asCalled(fault.file ? faultLine(fault) : `splitsum: ${faultLine(fault)}`),
    );
    remark(lines.join("\n"));
    return error.exitStatus;
  }
  if (isFewFiles(error)) {
    process.stderr.write(fewFilesText);
    return 1;
  }
  if (isOutOfMemory(error)) {
    process.stderr.write(outOfMemoryText);
    return 1;
  }
  // Closed pipes are met in `watchStreams`; other system errors are told by their own words.
  if (codeOf(error) !== null && error instanceof Error && "syscall" in error) {
    remark(`splitsum: ${error.message}`);
    return 1;
  }
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  remark(`splitsum: this is a fault of splitsum itself, please report it:\n${stack}`);
  return 1;
}
