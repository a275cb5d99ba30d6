// Compiles src to dist, and bundles the page's two scripts. With --if-stale, only when a source is newer than the last build.
// Writes nothing to standard output, so that commands run through it stay clean.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { licencesOf } from "./licences.mjs";
import { pageBundle } from "./pageBundle.mjs";

const root = fileURLToPath(new URL("../../", import.meta.url));
const stamp = `${root}dist/.built`;

if (!process.argv.includes("--if-stale") || isStale()) await build();

function isStale() {
  if (!existsSync(stamp)) return true;
  const builtAt = statSync(stamp).mtimeMs;
  const sources = readdirSync(`${root}src`, { recursive: true }).map((name) => `${root}src/${name}`);
  return [...sources, `${root}package-lock.json`, `${root}tsconfig.json`].some(
    (file) => existsSync(file) && statSync(file).mtimeMs > builtAt,
  );
}

async function build() {
  rmSync(stamp, { force: true });
  const result = spawnSync(process.execPath, [`${root}node_modules/typescript/bin/tsc`, "-p", root], {
    stdio: ["ignore", 2, 2],
  });
  if (result.status !== 0) process.exit(1);
  await bundlePage();
  writeFileSync(stamp, "");
}

/** The page's app and its worker, each as one script that `compare` writes into the page, and the licences of both. */
async function bundlePage() {
  const { build: bundle } = await import("esbuild");
  const { metafile } = await bundle({
    ...pageBundle,
    absWorkingDir: root,
    metafile: true,
    entryPoints: {
      "app.bundle": `${root}src/page/app.ts`,
      "engine.bundle": `${root}src/page/live/engine/engineWorker.ts`,
    },
    outdir: `${root}dist/page`,
    minify: true,
    legalComments: "eof",
    logLevel: "warning",
  });
  writeFileSync(`${root}dist/page/licences.txt`, licencesOf(Object.keys(metafile.inputs), root));
}
