import { existsSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { hashOfFile, hashOfFileAsync } from "./contentHash.js";
import { codeOf } from "./fileFault.js";
import { ownerFile } from "./folderLock.js";
import { writeWhole } from "./wholeFile.js";

/** In each folder that the program writes into: what it wrote there, by content, so that it replaces nothing else. */
export const manifestFile = ".splitsum.json";

const schemaVersion = 2;
/** What file managers leave in any folder. */
const litter = /(^|\/)(\.DS_Store|Thumbs\.db|desktop\.ini)$/;

interface Manifest {
  /** Of a folder that is the program's as a whole: SHA-256 of each file. */
  readonly files: ReadonlyMap<string, string>;
  /** Of files that it put beside those of others: SHA-256 of the last, and of the one before it. */
  readonly beside: ReadonlyMap<string, readonly string[]>;
}

/** Notes down every file in the folder, those in its folders too. @throws `signal.reason` when told to stop */
export async function writeManifest(folder: string, signal?: AbortSignal): Promise<void> {
  const files = new Map<string, string>();
  for (const name of allFilesIn(folder)) {
    files.set(name, await hashOfFileAsync(join(folder, name)));
    signal?.throwIfAborted();
  }
  write(folder, { files, beside: new Map() });
}

/** Names of files in a folder of results that are not as the program left them. */
export interface Strangers {
  readonly foreign: readonly string[];
  readonly changed: readonly string[];
}

/** Files in the folder that its manifest does not name, or names with other content. */
export async function strangersIn(folder: string): Promise<Strangers> {
  const { files } = read(folder);
  const foreign: string[] = [];
  const changed: string[] = [];
  for (const name of allFilesIn(folder)) {
    const hash = files.get(name);
    if (hash === undefined) foreign.push(name);
    else if ((await hashOfFileAsync(join(folder, name))) !== hash) changed.push(name);
  }
  return { foreign, changed };
}

/** True for a file that the program put where it is, and that is as it was then. */
export function isOurs(file: string): boolean {
  const hashes = read(dirname(file)).beside.get(basename(file));
  return hashes !== undefined && statSync(file).isFile() && hashes.includes(hashOfFile(file));
}

/** The same, for files of any size. */
export async function isOursAsync(file: string): Promise<boolean> {
  const hashes = read(dirname(file)).beside.get(basename(file));
  return hashes !== undefined && statSync(file).isFile() && hashes.includes(await hashOfFileAsync(file));
}

/**
 * Notes down files that are about to take their names.
 * @param by  folder for the note until it is complete
 * @returns takes the note back
 */
export function noteBeside(
  noted: readonly { readonly path: string; readonly hash: string }[],
  by: string,
): () => void {
  const folders = new Set(noted.map(({ path }) => dirname(path)));
  const undos = [...folders].map((folder) => {
    const path = join(folder, manifestFile);
    const before = existsSync(path) ? readFileSync(path) : null;
    const { files, beside } = read(folder);
    const next = new Map([...beside].filter(([name]) => existsSync(join(folder, name))));
    for (const { path: file, hash } of noted) {
      if (dirname(file) !== folder) continue;
      const older = next.get(basename(file)) ?? [];
      next.set(basename(file), [hash, ...older.filter((other) => other !== hash)].slice(0, 2));
    }
    write(folder, { files, beside: next }, by);
    return () =>
      before === null ? rmSync(path, { force: true }) : writeWhole(path, before, { force: true, by });
  });
  return () => {
    for (const undo of undos) undo();
  };
}

function allFilesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll("\\", "/"),
    )
    .filter((name) => name !== manifestFile && name !== ownerFile && !litter.test(name))
    .sort();
}

function write(folder: string, { files, beside }: Manifest, by = folder): void {
  const text = JSON.stringify(
    { schemaVersion, files: Object.fromEntries(files), beside: Object.fromEntries(beside) },
    null,
    2,
  );
  writeWhole(join(folder, manifestFile), `${text}\n`, { force: true, by });
}

function read(folder: string): Manifest {
  const value = parsed(join(folder, manifestFile));
  const [files, beside] = isMap(value) ? [value.files, value.beside] : [];
  const single = Object.entries(isMap(files) ? files : {});
  const several = Object.entries(isMap(beside) ? beside : {});
  return {
    files: new Map(single.filter((entry): entry is [string, string] => typeof entry[1] === "string")),
    beside: new Map(several.map(([name, hashes]) => [name, Array.isArray(hashes) ? hashes.map(String) : []])),
  };
}

function parsed(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, "utf8"));
  } catch (error) {
    if (error instanceof SyntaxError || codeOf(error) === "ENOENT") return null;
    throw error;
  }
}

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
