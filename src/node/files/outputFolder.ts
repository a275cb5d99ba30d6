import {
  existsSync,
  mkdirSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
} from "node:fs";
import { basename, dirname, join, resolve, sep } from "node:path";
import { UserError } from "../../text/userError.js";
import { clearAtEnd } from "./clearAtEnd.js";
import { fileFault } from "./fileFault.js";
import { isFixed } from "./fixedFolder.js";
import { leavePartFolder, ownerFile, refuseLost, removePartFolder, takePartFolder } from "./folderLock.js";
import { manifestFile, strangersIn, writeManifest } from "./manifest.js";

/** A folder of results that appears whole or not at all. */
export interface OutputFolder {
  /** Write into this one; it stands beside the folder that was asked for, or in it where that cannot be renamed. */
  readonly folder: string;
  /** All is complete: the folder takes its name, and an older one goes. */
  commit(signal?: AbortSignal): Promise<void>;
  /** Not to be: nothing stays. Does nothing after `commit`. */
  discard(): void;
}

/**
 * Opens a folder for results. Everything is written beside it and gets its name at the end, so a run that stops half
 * way leaves the older results as they were. A program that ends without a word to it discards it. A folder that cannot
 * be renamed must be empty: the results are made in it, out of sight, and moved up at the end.
 *
 * @param dir    made, with the folders above it, if it is not there
 * @param force  replace a folder that holds results; only one that this program wrote, with nothing of others in it
 * @throws UserError: it holds files already, it is a file, another run is writing it, it cannot be written
 */
export async function openOutputFolder(dir: string, { force }: { force: boolean }): Promise<OutputFolder> {
  const target = targetOf(dir);
  const old = join(dirname(target), `.${basename(target)}.splitsum-old`);
  await refuseTaken(dir, force);
  let made: string | undefined;
  let folder: string | null = null;
  // Before there is anything: whoever handles signals does it from here on.
  const clear = () => {
    if (folder !== null) removePartFolder(folder);
    if (made !== undefined) removeEmptyUpTo(dirname(target), made);
    cleared();
  };
  const cleared = clearAtEnd(clear);
  try {
    made = orFault(dir, () => mkdirSync(dirname(target), { recursive: true }));
    const inner = isFixed(target) ? join(target, innerPart) : undefined;
    folder = orFault(dir, () => takePartFolder(target, inner));
    await mendInterruptedSwap({ target, old, dir });
    await refuseTaken(dir, force);
  } catch (error) {
    clear();
    throw error;
  }
  return opened({ folder, target, old, dir, force, clear, cleared });
}

function opened({ folder, target, old, dir, force, clear, cleared }: Places): OutputFolder {
  let isOpen = true;
  const discard = () => {
    if (isOpen) clear();
    isOpen = false;
  };

  return {
    folder,
    async commit(signal) {
      await orFaultAsync(dir, () => writeManifest(folder, signal));
      await refuseTaken(dir, force);
      refuseLost(folder, dir);
      orFault(dir, () => {
        if (folder === join(target, innerPart)) {
          moveUp(folder, target);
          isOpen = false;
          removePartFolder(folder);
          cleared();
          return;
        }
        const isReplacing = existsSync(target);
        if (isReplacing) renameSync(target, old);
        try {
          renameSync(folder, target);
        } catch (error) {
          if (isReplacing) renameSync(old, target);
          throw error;
        }
        isOpen = false;
        leavePartFolder(folder);
        rmSync(join(target, ownerFile), { force: true });
        rmSync(old, { recursive: true, force: true });
        cleared();
      });
    },
    discard,
  };
}

/** In a folder that cannot be renamed. */
const innerPart = ".splitsum-part";

/** Moves everything one folder up, all or nothing; what was moved is known by its manifest, which goes first. */
function moveUp(folder: string, target: string): void {
  const names = readdirSync(folder).filter((name) => name !== ownerFile && name !== manifestFile);
  const moved: string[] = [];
  try {
    for (const name of [manifestFile, ...names]) {
      renameSync(join(folder, name), join(target, name));
      moved.push(name);
    }
  } catch (error) {
    for (const name of moved) renameSync(join(target, name), join(folder, name));
    throw error;
  }
}

const targetOf = (dir: string): string => (existsSync(dir) ? realpathSync(dir) : resolve(dir));

interface Places {
  readonly folder: string;
  readonly target: string;
  /** Where an older folder is while the new one takes its name. */
  readonly old: string;
  /** As the person wrote it. */
  readonly dir: string;
  readonly force: boolean;
  /** Removes what was made so far. */
  readonly clear: () => void;
  /** There is nothing to clear any more. */
  readonly cleared: () => void;
}

/** @throws UserError when what is there may not be replaced. */
export async function refuseTaken(dir: string, force: boolean): Promise<void> {
  const target = targetOf(dir);
  if (!existsSync(target)) return;
  const refuse = (message: string): never => {
    throw new UserError({ file: dir, message: `${message}; nothing was written.` });
  };
  if (!orFault(dir, () => statSync(target)).isDirectory()) refuse("is a file. Name a folder");
  const here = process.cwd();
  if (here === target || here.startsWith(join(target, sep))) {
    refuse("is the folder that you are in. Name another, such as a new one inside it");
  }
  const files = orFault(dir, () => readdirSync(target)).filter(isSeen);
  if (files.length === 0) return;
  const count = `${files.length} ${files.length === 1 ? "file" : "files"}`;
  if (isFixed(target)) {
    refuse(
      `already holds ${count}, and cannot be replaced where it stands. Empty it, or name a new folder inside it`,
    );
  }
  const { foreign, changed } = await orFaultAsync(dir, () => strangersIn(target));
  if (foreign.length + changed.length === 0) {
    if (!force) refuse(`already holds ${count}. Name an empty folder or use --force`);
    return;
  }
  if (!force) refuse(`already holds ${count}. Name an empty folder`);
  const few = (names: readonly string[]) => names.slice(0, 3).join(", ") + (names.length > 3 ? ", ..." : "");
  const what = [
    ...(foreign.length > 0 ? [`what splitsum did not write (${few(foreign)})`] : []),
    ...(changed.length > 0 ? [`what was changed since splitsum wrote it (${few(changed)})`] : []),
  ];
  refuse(`holds ${what.join(" and ")}, which --force does not remove. Name an empty folder`);
}

/** Not the program's own notes, nor what stands on every new disk (ext4). */
const isSeen = (name: string): boolean =>
  name !== manifestFile && name !== "lost+found" && !name.startsWith(innerPart);

/** A run that was killed between two renames left the older results under another name: they come back. */
async function mendInterruptedSwap({
  target,
  old,
  dir,
}: Pick<Places, "target" | "old" | "dir">): Promise<void> {
  if (!existsSync(old)) return;
  if (!existsSync(target)) return orFault(dir, () => renameSync(old, target));
  const { foreign, changed } = await orFaultAsync(dir, () => strangersIn(old));
  if (foreign.length + changed.length > 0) {
    const message = `holds what splitsum did not write, or what was changed since, and is in the way of ${dir}. Move it away; nothing was written.`;
    throw new UserError({ file: old, message });
  }
  orFault(dir, () => rmSync(old, { recursive: true, force: true }));
}

/** Removes `folder` and those above it, up to `top`, as long as they are empty. */
function removeEmptyUpTo(folder: string, top: string): void {
  try {
    for (let at = folder; at.startsWith(top); at = dirname(at)) rmdirSync(at);
  } catch {
    // Somebody else has put something there meanwhile: it stays.
  }
}

function orFault<T>(dir: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, dir, "write");
  }
}

async function orFaultAsync<T>(dir: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw fileFault(error, dir, "write");
  }
}
