import { accessSync, constants, existsSync, readFileSync, statSync } from "node:fs";
import { dirname } from "node:path";

/**
 * True for a folder that cannot be given another name, so that nothing can take its place: a disk or another folder is
 * mounted there, or the folder above it is not to be changed by this account.
 * Source: rename(), EBUSY, EXDEV, EACCES and, of sticky folders, EPERM: POSIX.1-2017; mounts by proc(5) of Linux.
 */
export function isFixed(folder: string): boolean {
  if (!existsSync(folder)) return false;
  const above = statSync(dirname(folder));
  const own = statSync(folder);
  if (own.dev !== above.dev || own.ino === above.ino || mounts().includes(folder)) return true;
  const account = process.geteuid?.() ?? 0;
  const isSticky = (above.mode & 0o1000) !== 0;
  if (isSticky && account !== 0 && own.uid !== account && above.uid !== account) return true;
  try {
    accessSync(dirname(folder), constants.W_OK | constants.X_OK);
    return false;
  } catch {
    return true;
  }
}

/** Places where something is mounted; none where a system does not list them. */
function mounts(): string[] {
  try {
    const lines = readFileSync("/proc/self/mountinfo", "utf8").split("\n");
    // Blanks and backslashes in names are written as octal numbers.
    return lines.map((line) =>
      (line.split(" ")[4] ?? "").replace(/\\(\d{3})/g, (_, octal) =>
        String.fromCharCode(Number.parseInt(octal, 8)),
      ),
    );
  } catch {
    return [];
  }
}
