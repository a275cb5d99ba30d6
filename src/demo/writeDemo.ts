import { existsSync, mkdirSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { fileFault } from "../node/files/fileFault.js";
import { writeWhole } from "../node/files/wholeFile.js";
import { UserError } from "../text/userError.js";

/**
 * Writes the demo to start from: every demo rig into `dir`, their takes into `dir/takes`.
 *
 * @param dir    made, with the folders above it, if it is not there; other files in it are left alone
 * @param force  replace files of the same names
 * @returns paths of the files written, rigs first
 * @throws UserError when there is such a file already and `force` is not given, or one cannot be written
 * @example
 * ```ts
 * import { writeDemo } from "splitsum";
 * const files = writeDemo("demo", { force: false });
 * console.log(files[0]);
 * ```
 */
export function writeDemo(dir: string, { force }: { force: boolean }): string[] {
  const rigs = shipped("rigs", ".yaml").map(({ name, content }) => ({
    path: join(dir, name),
    // Rigs and takes stand side by side where they come from; here the takes are a folder below.
    content: content.toString("utf8").replaceAll("../takes/", "takes/"),
  }));
  const takes = shipped("takes", ".wav").map(({ name, content }) => ({
    path: join(dir, "takes", name),
    content,
  }));
  const files = [...rigs, ...takes];
  const taken = files.filter(({ path }) => existsSync(path)).map(({ path }) => path);
  if (taken.length > 0 && !force) {
    const message = `already holds ${taken.map((path) => path.slice(join(dir, "/").length)).join(", ")}. Name another folder, or use --force to replace; nothing was written.`;
    throw new UserError({ file: dir, message });
  }
  for (const { path, content } of files) {
    makeFolder(dirname(path));
    writeWhole(path, content, { force });
  }
  return files.map(({ path }) => path);
}

/** Files that come with the program, in order of their names. */
function shipped(folder: string, ending: string): { name: string; content: Buffer }[] {
  const path = fileURLToPath(new URL(`../../fixtures/${folder}`, import.meta.url));
  return readdirSync(path)
    .filter((name) => name.endsWith(ending))
    .sort()
    .map((name) => ({ name, content: readFileSync(join(path, name)) }));
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw fileFault(error, folder, "write");
  }
}
