import { closeSync, openSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** So many files are open at once while the program and its libraries load, and some to spare. */
const neededFiles = 256;

export const fewFilesText = `splitsum: the system lets too few files be open at a time. Allow ${neededFiles}, as by "ulimit -n ${neededFiles}".\n`;

/**
 * Whether an error came of too few open files. The loader of modules does not always say so: it may call a package
 * missing whose file it could not open. Then it is tried.
 * Source: EMFILE and ENFILE, POSIX.1-2017, open().
 */
export function isFewFiles(error: unknown): boolean {
  const code = error instanceof Error && "code" in error ? error.code : null;
  if (code === "ERR_MODULE_NOT_FOUND") return !canOpen(neededFiles);
  return code === "EMFILE" || code === "ENFILE";
}

function canOpen(count: number): boolean {
  const file = fileURLToPath(import.meta.url);
  const open: number[] = [];
  try {
    while (open.length < count) open.push(openSync(file, "r"));
    return true;
  } catch {
    return false;
  } finally {
    open.forEach((handle) => {
      closeSync(handle);
    });
  }
}
