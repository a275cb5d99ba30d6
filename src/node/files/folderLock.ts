import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { UserError } from "../../text/userError.js";
import { codeOf, fileFault } from "./fileFault.js";

/** In a folder that a run is writing: who does. */
export const ownerFile = ".splitsum-run.json";

/** The folder that a run writes into until all is complete: beside the one it will become. */
export const partFolderOf = (folder: string): string =>
  join(dirname(folder), `.${basename(folder)}.splitsum-part`);

/**
 * Makes the part folder of `folder` for this run alone and returns its path. Taking it is a rename of a folder that
 * names its owner already, which fails while another is there, so of two runs at once exactly one gets it. One that a
 * killed run left (its process is gone) is cleared away.
 *
 * @throws UserError when another run is writing the same folder; what the system says when it cannot be made
 */
export function takePartFolder(folder: string): string {
  const part = partFolderOf(folder);
  const mine = mkdtempSync(`${part}-`);
  try {
    // A temporary folder is made for its owner's eyes only; this one becomes the results.
    chmodSync(mine, 0o777 & ~process.umask());
    writeFileSync(join(mine, ownerFile), JSON.stringify({ pid: process.pid, host: hostname() }));
    for (let attempt = 0; attempt < 5; attempt++) {
      if (renamed(mine, part)) return part;
      clearIfDead(part, folder);
    }
    throw inUse(folder, part);
  } catch (error) {
    rmSync(mine, { recursive: true, force: true });
    throw error;
  }
}

/** Removes a part folder; its owner's name goes last, so that a run killed here is still known to be dead. */
export function removePartFolder(part: string): void {
  for (const name of existsSync(part) ? readdirSync(part) : []) {
    if (name !== ownerFile) rmSync(join(part, name), { recursive: true, force: true });
  }
  rmSync(part, { recursive: true, force: true });
}

/**
 * Does work in the part folder of `path`, which goes when it ends, also with the program.
 * @throws UserError when another run is at it, or it cannot be made
 */
export async function inPartFolder<T>(path: string, work: (part: string) => Promise<T>): Promise<T> {
  const part = takeOrFault(path);
  const remove = () => removePartFolder(part);
  process.on("exit", remove);
  try {
    return await work(part);
  } finally {
    process.off("exit", remove);
    remove();
  }
}

function takeOrFault(path: string): string {
  try {
    return takePartFolder(path);
  } catch (error) {
    throw fileFault(error, path, "write");
  }
}

interface Owner {
  readonly pid: number;
  readonly host: string;
}

function clearIfDead(part: string, folder: string): void {
  const owner = ownerOf(part);
  if (owner === null) {
    if (existsSync(part)) throw inUse(folder, part);
    return;
  }
  if (isAlive(owner)) throw inUse(folder, part, owner);
  const aside = mkdtempSync(`${part}-old-`);
  const moved = join(aside, "part");
  if (renamed(part, moved)) {
    const found = ownerOf(moved);
    if (found !== null && isAlive(found)) {
      // Another run cleared the dead one and took its place between the two looks: hand it back.
      renamed(moved, part);
      rmSync(aside, { recursive: true, force: true });
      throw inUse(folder, part, found);
    }
  }
  rmSync(aside, { recursive: true, force: true });
}

function ownerOf(part: string): Owner | null {
  try {
    const value: unknown = JSON.parse(readFileSync(join(part, ownerFile), "utf8"));
    if (typeof value !== "object" || value === null || !("pid" in value) || !("host" in value)) return null;
    const { pid, host } = value;
    return typeof pid === "number" && typeof host === "string" ? { pid, host } : null;
  } catch {
    return null;
  }
}

/** A process on another machine is taken to be alive: a shared disk cannot tell. */
function isAlive({ pid, host }: Owner): boolean {
  if (host !== hostname()) return true;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) === "EPERM";
  }
}

/** False when something is in the way, or nothing is there to rename. */
function renamed(from: string, to: string): boolean {
  try {
    renameSync(from, to);
    return true;
  } catch (error) {
    if (["ENOTEMPTY", "EEXIST", "EPERM", "ENOENT"].includes(codeOf(error) ?? "")) return false;
    throw error;
  }
}

function inUse(folder: string, part: string, owner?: Owner): UserError {
  const who = owner === undefined ? "another run" : `another run (process ${owner.pid} on ${owner.host})`;
  const message = `${who} is writing here. Wait until it ends or name another folder; if there is no such run, remove ${part}. Nothing was written.`;
  return new UserError({ file: folder, message }, 1);
}
