import { randomUUID } from "node:crypto";
import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { UserError } from "../../text/userError.js";
import { codeOf, fileFault } from "./fileFault.js";

/**
 * Writes a file whole or not at all: under another name in the same folder, on to the disk, then renamed. A program
 * that is killed leaves no half file of that name, and an old one stays until the new one is complete.
 *
 * @param force  replace what is there; without it an existing file is refused, also one that appears meanwhile
 * @param by     folder for it until it is complete, on the same disk: one that is cleared when the program is killed
 * @throws UserError when it exists (status 2) or cannot be written (status 1)
 * Source: rename() replaces in one step, link() never does: POSIX.1-2017.
 */
export function writeWhole(
  file: string,
  content: Uint8Array | string,
  { force, by = dirname(file) }: { force: boolean; by?: string },
): void {
  refuseExisting(file, force);
  const part = join(by, `.splitsum-${randomUUID()}.part`);
  try {
    const handle = openSync(part, "wx");
    try {
      writeAndClose(handle, content);
      if (force) renameSync(part, file);
      else putWhereNothingIs(part, file);
    } finally {
      rmSync(part, { force: true });
    }
  } catch (error) {
    if (codeOf(error) === "EEXIST") refuseExisting(file, force);
    throw fileFault(error, file, "write");
  }
}

/** @throws UserError when there is something of that name that may not be replaced. */
function refuseExisting(file: string, force: boolean): void {
  if (!existsSync(file)) return;
  if (statSync(file).isDirectory()) {
    throw new UserError({ file, message: "is a folder. Name a file; nothing was written." });
  }
  if (!force) {
    const message = "exists already. Name another file, or use --force to replace it; nothing was written.";
    throw new UserError({ file, message });
  }
}

function writeAndClose(handle: number, content: Uint8Array | string): void {
  try {
    writeFileSync(handle, content);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Some disks have no links; there the name is looked at once more, and a file that appears just then is replaced. */
function putWhereNothingIs(part: string, file: string): void {
  try {
    linkSync(part, file);
  } catch (error) {
    if (codeOf(error) === "EEXIST") throw error;
    refuseExisting(file, false);
    renameSync(part, file);
  }
}
