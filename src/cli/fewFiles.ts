import { closeSync, openSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Where so many cannot be opened, that may be why a module was not found: 140 are open at once while one thread loads. */
const neededFiles = 256;
/** Enough for 64 threads, each of which loads its own (measured: 2048 are not). */
const enoughFiles = 4096;

export const fewFilesText = `splitsum: the system lets too few files be open at a time. Allow ${enoughFiles}, as by "ulimit -n ${enoughFiles}", or use fewer threads.\n`;

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
