// Makes dist of src: types, the program in a few files, and the page's two scripts. With --if-stale, only when a source is
// not as it was at the last build; with --clean, dist holds nothing else.
// Writes nothing to standard output, so that commands run through it stay clean.
import { spawnSync } from "node:child_process";
import { rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { licencesOf } from "./licences.mjs";
import { buildLoops } from "./loops.mjs";
import { nodeBundle } from "./nodeBundle.mjs";
import { pageBundle } from "./pageBundle.mjs";
import { isStale, stampOf, stateOf } from "./stale.mjs";

const root = fileURLToPath(new URL("../../", import.meta.url));

if (!process.argv.includes("--if-stale") || isStale(root)) await build();

async function build() {
  // Of before: what changes while it is built is built at the next run.
  const built = stateOf(root);
  rmSync(process.argv.includes("--clean") ? `${root}dist` : stampOf(root), { recursive: true, force: true });
  const compiler = `${root}node_modules/typescript/bin/tsc`;
  const result = spawnSync(process.execPath, [compiler, "-p", root, "--emitDeclarationOnly"], {
    stdio: ["ignore", 2, 2],
  });
  if (result.status !== 0) process.exit(1);
  await buildLoops(root);
  await bundleProgram();
  await bundlePage();
  writeFileSync(stampOf(root), built);
}

/** The command line, the library and what runs in threads; what they share stands in files of its own, once. */
async function bundleProgram() {
  const { build: bundle } = await import("esbuild");
  rmSync(`${root}dist/shared`, { recursive: true, force: true });
  await bundle({
    ...nodeBundle,
    absWorkingDir: root,
    entryPoints: {
      "cli/main": "src/cli/main.ts",
      index: "src/index.ts",
      "threads/compare": "src/node/compare/worker.ts",
      "threads/sweep": "src/node/sweep/worker.ts",
    },
    outdir: "dist",
    chunkNames: "shared/[name]-[hash]",
    splitting: true,
    logLevel: "warning",
  });
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
