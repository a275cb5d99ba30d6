// Packs the project, installs it in an empty one, and uses it there: as a command, as a typed library, and without what is
// optional. Needs the registry; `npm run package-check [-- FOLDER_OF_NODE ...]`, other Nodes by their bin folders.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const work = mkdtempSync(join(tmpdir(), "splitsum-package-"));
try {
  const packed = JSON.parse(run("npm", ["pack", "--json", "--pack-destination", work], root))[0];
  const tarball = join(work, packed.filename);
  say(`packed ${packed.files.length} files, ${(statSync(tarball).size / 1e6).toFixed(1)} MB`);
  refuseStrangers(packed.files.map(({ path }) => path));

  const whole = project("whole");
  install(whole, tarball, []);
  refuseScripts(whole);
  useCommand(whole);
  useLibrary(whole);
  const names = [join(whole, "tone.flac"), join(work, "tone.flac")];
  run("node", ["src/build/run.mjs", "tests/package/makeFlac.mjs", ...names], root);
  const readsFlac = run("node", ["read.mjs", "tone.flac"], whole);
  if (!/^\d+ frames/.test(readsFlac)) throw new Error(`FLAC with the optional package: ${readsFlac}`);

  const bare = project("bare");
  install(bare, tarball, ["--omit=optional"]);
  useCommand(bare);
  const refused = run("node", ["read.mjs", "../tone.flac"], bare);
  if (!/needs the optional package @audio\/decode/.test(refused)) throw new Error(refused);
  say("without the optional package: WAV is read, and FLAC is refused with what to do");

  for (const bin of process.argv.slice(2)) {
    useCommand(whole, bin);
    say(`works on Node ${run("node", ["--version"], whole, bin).trim()}`);
  }
} finally {
  rmSync(work, { recursive: true });
}

function refuseStrangers(paths) {
  const strange = paths.filter(
    (path) => !/^(dist|fixtures)\/|^(README\.md|LICENSE|package\.json)$/.test(path),
  );
  if (strange.length > 0) throw new Error(`the package holds ${strange.join(", ")}`);
}

/** Nothing of ours, nor of what comes along, runs anything at its installation. */
function refuseScripts(folder) {
  const { packages } = JSON.parse(readFileSync(join(folder, "package-lock.json"), "utf8"));
  const scripted = Object.keys(packages).filter((name) => packages[name].hasInstallScript);
  if (scripted.length > 0) throw new Error(`install scripts: ${scripted.join(", ")}`);
}

function project(name) {
  const folder = join(work, name);
  mkdirSync(folder);
  writeFileSync(
    join(folder, "package.json"),
    JSON.stringify({ name: "empty", private: true, type: "module", version: "1.0.0" }),
  );
  writeFileSync(
    join(folder, "read.mjs"),
    `import { readTake, UserError } from "splitsum";
try {
  const take = await readTake(process.argv[2], { channel: "mean", allowTruncated: false });
  console.log(take.frames + " frames");
} catch (error) {
  if (!(error instanceof UserError)) throw error;
  console.log(error.message);
}
`,
  );
  return folder;
}

/** With scripts allowed: the optional package's may fail, and the rest must stand all the same. */
function install(folder, tarball, words) {
  const start = performance.now();
  run("npm", ["install", "--no-audit", "--no-fund", "--prefer-offline", ...words, tarball], folder);
  const count = readdirSync(join(folder, "node_modules")).length;
  const seconds = (performance.now() - start) / 1000;
  say(
    `installed by npm ${run("npm", ["--version"], folder).trim()} in ${seconds.toFixed(0)} s, ${count} folders`,
  );
}

function useCommand(folder, bin) {
  const command = join(folder, "node_modules/.bin/splitsum");
  const splitsum = (...words) => run("node", [command, ...words], folder, bin);
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  if (splitsum("--version").trim() !== version) throw new Error("--version is another");
  rmSync(join(folder, "demo"), { recursive: true, force: true });
  splitsum("init", "demo");
  const words = ["demo/ferry-road.yaml", "--routings", "series-mono,parallel", "--out", "demo/out", "--json"];
  const { routings } = JSON.parse(splitsum("compare", ...words));
  const [mono, parallel] = routings.map(({ measures }) => measures?.sideShare);
  if (mono !== 0 || !(parallel > 0.1)) throw new Error(`side shares are ${mono} and ${parallel}`);
  const page = statSync(join(folder, "demo/out/report.html")).size;
  say(
    `the command works: parallel has a side share of ${parallel.toFixed(2)}, the page ${(page / 1e6).toFixed(1)} MB`,
  );
}

function useLibrary(folder) {
  writeFileSync(
    join(folder, "use.ts"),
    `import { measureClip, parseRig, type Rig, routingsOf } from "splitsum";
const rig: Rig = parseRig("name: A\\npedals: [{ name: Swing, model: chorus, jacks: mono-to-stereo }]\\n", "rig.yaml");
const ids: string[] = routingsOf(rig).map(({ id }) => id);
const same: number | null = measureClip({ rateHz: 48000, channels: [new Float32Array([1, 0.5])] }).correlation;
// @ts-expect-error: a number is no clip
export const refused = () => measureClip(1);
console.log(ids.length, same);
`,
  );
  const compiler = join(root, "node_modules/typescript/bin/tsc");
  const options = ["--strict", "--module", "nodenext", "--target", "es2022", "--skipLibCheck", "false"];
  const types = ["--types", "node", "--typeRoots", join(root, "node_modules/@types")];
  run("node", [compiler, ...options, ...types, "use.ts"], folder);
  const printed = run("node", ["use.js"], folder).trim();
  if (!/ 1$/.test(printed)) throw new Error(`the typed program printed ${printed}`);
  say("the library works, with its types checked strictly");
}

function run(program, words, folder, bin) {
  const path = bin ? bin + delimiter + process.env.PATH : process.env.PATH;
  const file = program === "node" && bin ? join(bin, "node") : program;
  return execFileSync(file, words, {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, PATH: path },
    stdio: ["ignore", "pipe", "pipe"],
    maxBuffer: 2 ** 28,
  });
}

function say(text) {
  process.stdout.write(`${text}\n`);
}
