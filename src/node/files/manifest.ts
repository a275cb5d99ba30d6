import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { codeOf } from "./fileFault.js";
import { ownerFile } from "./folderLock.js";

/** In each folder of results: the names of the files written there, so that `--force` removes nothing else. */
export const manifestFile = ".splitsum.json";

const schemaVersion = 1;
/** What file managers leave in any folder. */
const litter = /(^|\/)(\.DS_Store|Thumbs\.db|desktop\.ini)$/;

/** Notes down every file in the folder, those in its folders too. */
export function writeManifest(folder: string): void {
  const files = allFilesIn(folder);
  writeFileSync(join(folder, manifestFile), `${JSON.stringify({ schemaVersion, files }, null, 2)}\n`);
}

/** Files in the folder that its manifest does not name; all of them when it has none. */
export function strangersIn(folder: string): string[] {
  const known = new Set(knownFiles(folder));
  return allFilesIn(folder).filter((name) => !known.has(name));
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

function knownFiles(folder: string): string[] {
  try {
    const value: unknown = JSON.parse(readFileSync(join(folder, manifestFile), "utf8"));
    if (typeof value !== "object" || value === null || !("files" in value)) return [];
    return Array.isArray(value.files) ? value.files.filter((name) => typeof name === "string") : [];
  } catch (error) {
    if (error instanceof SyntaxError || codeOf(error) === "ENOENT") return [];
    throw error;
  }
}
