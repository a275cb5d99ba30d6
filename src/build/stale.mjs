// Whether what is built is of the sources as they are now.
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";

/** The file that says of what the last build was. */
export const stampOf = (root) => `${root}dist/.built`;

export const isStale = (root) =>
  !existsSync(stampOf(root)) || readFileSync(stampOf(root), "utf8") !== stateOf(root);

/** Names, sizes and times of the sources, as one hash: a file dated in the future is as good as any other. */
export function stateOf(root) {
  const sources = readdirSync(`${root}src`, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => `${parentPath}/${name}`);
  const files = [...sources, `${root}package-lock.json`, `${root}tsconfig.json`].filter((file) =>
    existsSync(file),
  );
  const lines = files.sort().map((file) => {
    const { size, mtimeMs } = statSync(file);
    return `${file.slice(root.length)} ${size} ${mtimeMs}`;
  });
  return createHash("sha256").update(lines.join("\n")).digest("hex");
}
