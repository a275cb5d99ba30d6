// Compiles src to dist. With --if-stale, only when a source is newer than the last build.
// Writes nothing to standard output, so that commands run through it stay clean.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const stamp = `${root}dist/.built`;

if (!process.argv.includes("--if-stale") || isStale()) build();

function isStale() {
  if (!existsSync(stamp)) return true;
  const builtAt = statSync(stamp).mtimeMs;
  const sources = readdirSync(`${root}src`, { recursive: true }).map((name) => `${root}src/${name}`);
  return [...sources, `${root}package-lock.json`, `${root}tsconfig.json`].some(
    (file) => existsSync(file) && statSync(file).mtimeMs > builtAt,
  );
}

function build() {
  rmSync(stamp, { force: true });
  const result = spawnSync(process.execPath, [`${root}node_modules/typescript/bin/tsc`, "-p", root], {
    stdio: ["ignore", 2, 2],
  });
  if (result.status !== 0) process.exit(1);
  writeFileSync(stamp, "");
}
