import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { UserError } from "../../text/userError.js";
import { clearAtEnd } from "./clearAtEnd.js";
import { codeOf, fileFault } from "./fileFault.js";
import { beatMs, isAlive, newOwner, ownerIn, type RunOwner, silentMs } from "./runOwner.js";

/** In a folder that a run is writing: who does. */
export const ownerFile = ".splitsum-run.json";

/** The folder that a run writes into until all is complete: beside the one it will become. */
export const partFolderOf = (folder: string): string =>
  join(dirname(folder), `.${basename(folder)}.splitsum-part`);

/**
 * Makes the part folder of `folder`, beside it unless told otherwise, for this run alone and returns its path. Taking it is a rename of a folder that
 * names its owner already, which fails while another is there, so of two runs at once exactly one gets it. One that a
 * killed run left is cleared away. While it is held, its owner's file is touched every few seconds.
 *
 * @throws UserError when another run is writing the same folder; what the system says when it cannot be made
 */
export function takePartFolder(folder: string, part = partFolderOf(folder)): string {
  const mine = mkdtempSync(`${part}-`);
  try {
    // A temporary folder is made for its owner's eyes only; this one becomes the results.
    chmodSync(mine, 0o777 & ~process.umask());
    const owner = newOwner();
    writeFileSync(join(mine, ownerFile), JSON.stringify(owner));
    const now = heardAt(mine);
    clearStrays(part, now);
    for (let attempt = 0; attempt < 5; attempt++) {
      if (renamed(mine, part)) {
        held.set(part, { owner, beat: beating(part) });
        return part;
      }
      clearIfDead(part, folder, now);
    }
    throw inUse(folder, part);
  } catch (error) {
    rmSync(mine, { recursive: true, force: true });
    throw error;
  }
}

/** Part folders of this run, by path. */
const held = new Map<string, { readonly owner: RunOwner; readonly beat: NodeJS.Timeout }>();

function beating(part: string): NodeJS.Timeout {
  const beat = setInterval(() => {
    try {
      const now = new Date();
      utimesSync(join(part, ownerFile), now, now);
    } catch {
      // Gone, or on a disk that is: what is written next tells.
    }
  }, beatMs);
  return beat.unref();
}

/** @throws UserError when this run was taken to be dead, and another has the part folder now */
export function refuseLost(part: string, folder: string): void {
  const found = ownerOf(part);
  if (found?.id === held.get(part)?.owner.id) return;
  const message = `this run was not heard of for ${silentMs / 1000} s, and another has taken over. Run it again; nothing was written.`;
  throw new UserError({ file: folder, message }, 1);
}

/** The part folder has taken its name: it is this run's no longer. */
export function leavePartFolder(part: string): void {
  clearInterval(held.get(part)?.beat);
  held.delete(part);
}

/**
 * Removes a part folder of this run; its owner's name goes last, so that a run killed here is still known to be dead.
 */
export function removePartFolder(part: string): void {
  const mine = held.get(part)?.owner.id;
  leavePartFolder(part);
  if (mine === undefined || ownerOf(part)?.id !== mine) return;
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
  let part: string | null = null;
  const remove = () => {
    if (part !== null) removePartFolder(part);
  };
  const cleared = clearAtEnd(remove);
  try {
    part = takeOrFault(path);
    return await work(part);
  } finally {
    remove();
    cleared();
  }
}

function takeOrFault(path: string): string {
  try {
    return takePartFolder(path);
  } catch (error) {
    throw fileFault(error, path, "write");
  }
}

function clearIfDead(part: string, folder: string, now: number): void {
  const owner = ownerOf(part);
  if (owner === null) {
    if (existsSync(part)) throw inUse(folder, part);
    return;
  }
  if (isAlive(owner, now - heardAt(part))) throw inUse(folder, part, owner);
  const aside = mkdtempSync(`${part}-old-`);
  const moved = join(aside, "part");
  if (renamed(part, moved)) {
    const found = ownerOf(moved);
    if (found !== null && found.id !== owner.id) {
      // Another run cleared the dead one and took its place between the two looks: hand it back.
      renamed(moved, part);
      rmSync(aside, { recursive: true, force: true });
      throw inUse(folder, part, found);
    }
  }
  rmSync(aside, { recursive: true, force: true });
}

/** Removes what runs that were killed while they took or cleared a part folder left beside it. */
function clearStrays(part: string, now: number): void {
  const folder = dirname(part);
  for (const name of readdirSync(folder).filter((each) => each.startsWith(`${basename(part)}-`))) {
    const stray = join(folder, name);
    const owner = ownerOf(stray) ?? ownerOf(join(stray, "part"));
    try {
      const silentFor = now - statSync(stray).mtimeMs;
      if (owner !== null && !isAlive(owner, silentFor)) rmSync(stray, { recursive: true, force: true });
      // Another run may just have made it, and not said yet that it did.
      if (owner === null && silentFor > silentMs) rmdirSync(stray);
    } catch {
      // Not empty, not a folder, or gone already: it is none of ours.
    }
  }
}

function ownerOf(part: string): RunOwner | null {
  try {
    return ownerIn(readFileSync(join(part, ownerFile), "utf8"));
  } catch {
    return null;
  }
}

/** When the owner of a part folder last said that it is alive, by the clock of the disk. */
function heardAt(part: string): number {
  try {
    return statSync(join(part, ownerFile)).mtimeMs;
  } catch {
    return Number.NEGATIVE_INFINITY;
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

function inUse(folder: string, part: string, owner?: RunOwner): UserError {
  const who = owner === undefined ? "another run" : `another run (process ${owner.pid} on ${owner.host})`;
  const ifNone =
    owner === undefined
      ? `if there is no such run, remove ${part}`
      : `one that was killed is forgotten after ${silentMs / 1000} s`;
  const message = `${who} is writing here. Wait until it ends or name another folder; ${ifNone}. Nothing was written.`;
  return new UserError({ file: folder, message }, 1);
}
