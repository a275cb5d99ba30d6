// Runs a script of the project's own that reaches into src: `node src/build/run.mjs tests/bench/bench.mjs [WORD ...]`. What
// the package does not show stands in no file of its own in dist.
import { spawnSync } from "node:child_process";
import { rmSync } from "node:fs";
import { parse } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { nodeBundle } from "./nodeBundle.mjs";

const root = fileURLToPath(new URL("../../", import.meta.url));
const [script, ...words] = process.argv.slice(2);
const outfile = `${root}dist/run/${parse(script).name}.mjs`;
buildSync({ ...nodeBundle, entryPoints: [script], outfile, logLevel: "warning" });
const { status } = spawnSync(process.execPath, [outfile, ...words], { stdio: "inherit" });
rmSync(outfile);
process.exit(status ?? 1);
