import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { ownFile } from "../node/files/ownFile.js";
import { writeOwn } from "../node/files/ownFiles.js";
import type { RigText } from "../rig/file/rigText.js";

/**
 * Writes the demo to start from: every demo rig into `dir`, their takes into `dir/takes`.
 *
 * @param dir    made, with the folders above it, if it is not there; other files in it are left alone
 * @param force  replace files of the same names that were written by it and not changed since
 * @returns paths of the files written, rigs first
 * @throws UserError when there is such a file already that may not be replaced, or one cannot be written; then none is
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
  writeOwn(files, { force });
  return files.map(({ path }) => path);
}

/** The demo rigs as they are shipped, with their paths. */
export const demoRigs = (): readonly (RigText & { readonly path: string })[] =>
  shipped("rigs", ".yaml").map(({ name, path, content }) => ({
    file: name,
    path,
    text: content.toString("utf8"),
  }));

/** Files that come with the program, in order of their names. */
function shipped(folder: string, ending: string): { name: string; path: string; content: Buffer }[] {
  const path = join(dirname(ownFile("package.json")), "fixtures", folder);
  return readdirSync(path)
    .filter((name) => name.endsWith(ending))
    .sort()
    .map((name) => ({ name, path: join(path, name), content: readFileSync(join(path, name)) }));
}
