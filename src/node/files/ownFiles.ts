import { existsSync, linkSync, mkdirSync, renameSync, rmdirSync, rmSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { UserError } from "../../text/userError.js";
import { hashOf, hashOfFile } from "./contentHash.js";
import { codeOf, fileFault } from "./fileFault.js";
import { removePartFolder, takePartFolder } from "./folderLock.js";
import { isOurs, isOursAsync, noteBeside } from "./manifest.js";
import { writeWhole } from "./wholeFile.js";

/** A file that is to lie among those of others. */
export interface OwnFile {
  readonly path: string;
  readonly content: Uint8Array | string;
}

/**
 * Writes files all or none, with the folders above them, and notes them down: what is changed afterwards is the
 * person's own.
 *
 * @param force  replace what the program wrote there before and nobody has changed; never anything else
 * @throws UserError when something is in the way (status 2) or they cannot be written (status 1)
 */
export function writeOwn(files: readonly OwnFile[], { force }: { force: boolean }): void {
  for (const { path, content } of files) refuseOther(path, force, hashOf(content));
  const made: string[] = [];
  let part: string | null = null;
  try {
    for (const { path } of files) made.push(...makeFolder(dirname(path)));
    part = inFolder(files[0].path, () => takePartFolder(files[0].path));
    for (const [n, { path, content }] of files.entries()) writePart(join(part, String(n)), content, path);
    giveNames(
      files.map(({ path, content }, n) => ({
        path,
        hash: hashOf(content),
        part: join(part ?? "", String(n)),
      })),
      force,
    );
  } catch (error) {
    if (part !== null) removePartFolder(part);
    removeEmpty(made);
    throw error;
  }
  removePartFolder(part);
}

/** A complete file under another name on the same disk, and its SHA-256. */
export interface PartFile {
  readonly path: string;
  readonly part: string;
  readonly hash: string;
}

/**
 * Gives complete files their names, and notes them down first: a program that is killed in between leaves none that it
 * would not know again.
 * @throws UserError when they cannot be given; those that had been given are taken back
 */
export function giveNames(files: readonly PartFile[], force: boolean): void {
  const undo = inFolder(files[0].path, () => noteBeside(files, dirname(files[0].part)));
  const given: string[] = [];
  for (const { path, part } of files) {
    try {
      const isNew = !existsSync(path);
      if (isNew || !force) putWhereNothingIs(part, path);
      else renameSync(part, path);
      if (isNew) given.push(path);
    } catch (error) {
      for (const each of given) rmSync(each, { force: true });
      undo();
      throw codeOf(error) === "EEXIST" ? inTheWay(path, false) : fileFault(error, path, "write");
    }
  }
}

/**
 * @param replacing  hash of what is to be written: a file that is the same already is no loss
 * @throws UserError when `file` is there and may not be replaced
 */
export function refuseOther(file: string, force: boolean, replacing?: string): void {
  if (!existsSync(file)) return;
  const isKnown = inFolder(file, () => {
    if (!statSync(file).isFile()) throw notAFile(file);
    return isOurs(file) || (replacing !== undefined && hashOfFile(file) === replacing);
  });
  if (!isKnown || !force) throw inTheWay(file, isKnown);
}

/** The same, for files of any size. */
export async function refuseOtherAsync(file: string, force: boolean): Promise<void> {
  if (!existsSync(file)) return;
  if (!statSync(file).isFile()) throw notAFile(file);
  const isKnown = await isOursAsync(file);
  if (!isKnown || !force) throw inTheWay(file, isKnown);
}

const notAFile = (file: string): UserError =>
  new UserError({ file, message: "is no file. Name a file; nothing was written." });

/** @param isKnown  the program wrote it, and nobody has changed it */
function inTheWay(file: string, isKnown: boolean): UserError {
  const message = isKnown
    ? "exists already. Name another place, or use --force to replace it; nothing was written."
    : "exists already, and is not as splitsum wrote it, if it did; --force does not replace it. Move it away or name another place; nothing was written.";
  return new UserError({ file, message });
}

function writePart(part: string, content: Uint8Array | string, file: string): void {
  try {
    writeWhole(part, content, { force: false });
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    throw new UserError(
      error.faults.map((fault) => ({ ...fault, file })),
      error.exitStatus,
    );
  }
}

/** Some disks have no links; there the name is looked at once more, and a file that appears just then is replaced. */
function putWhereNothingIs(part: string, file: string): void {
  try {
    linkSync(part, file);
  } catch (error) {
    if (codeOf(error) === "EEXIST") throw error;
    if (existsSync(file)) throw inTheWay(file, false);
    renameSync(part, file);
  }
}

/** @returns folders that were not there, the outermost first. @throws UserError when they cannot be made */
export function makeFolder(folder: string): string[] {
  const missing: string[] = [];
  for (let at = folder; !existsSync(at) && dirname(at) !== at; at = dirname(at)) missing.unshift(at);
  inFolder(folder, () => mkdirSync(folder, { recursive: true }));
  return missing;
}

function removeEmpty(folders: readonly string[]): void {
  for (const folder of folders.toReversed()) {
    try {
      rmdirSync(folder);
    } catch {
      // Not made after all, or somebody else has put something there: it stays.
    }
  }
}

function inFolder<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, file, "write");
  }
}
