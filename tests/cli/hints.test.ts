import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { delimiter, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { calledAs } from "../../src/cli/calledAs.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { shellWord } from "../../src/text/shellWord.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

const onPosix = test.skipIf(process.platform === "win32");
const checkout = fileURLToPath(new URL("../..", import.meta.url));
const main = join(checkout, "dist/cli/main.js");

/** A line of the shell, as a person copies it from what was printed. */
function copied(line: string, cwd: string) {
  const { status, stdout, stderr } = spawnSync("sh", ["-c", line], { cwd, encoding: "utf8" });
  return { status, out: stdout, err: stderr };
}
const after = (label: string, out: string): string => {
  const line = out.split("\n").find((each) => each.includes(label));
  if (line === undefined) throw new Error(`no line says "${label}":\n${out}`);
  return line.slice(line.indexOf(label) + label.length).trim();
};

/** The shell itself is the judge. */
onPosix("a word comes through a shell as it was", () => {
  for (const word of [
    "plain.yaml",
    "my rig",
    "it's",
    "$HOME",
    "a;b",
    'say "it"',
    "*",
    "~",
    "-",
    "",
    "\\",
    "a\nb",
  ])
    expect(execFileSync("sh", ["-c", `printf %s ${shellWord(word)}`], { encoding: "utf8" })).toBe(word);
});

onPosix("what init, compare, capture and sweep tell to do next can be done as printed", async () => {
  const cwd = temporaryFolder();
  const folder = join(cwd, "the rig's");
  mkdirSync(folder);
  const rig = `name: Two
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono }
`;
  writeFileSync(join(folder, "my rig.yaml"), rig);
  const sound = { rateHz: 8000, channels: [noise({ seed: 1, frames: 8000, rms: 0.1 })] };
  writeClip(join(folder, "my take.wav"), sound, { bits: 16, force: false });
  const files = ["the rig's/my rig.yaml", "the rig's/my take.wav"];

  const init = await run(["init", "a folder"], { cwd });
  expect(copied(`${after("Next:", init.out)} --dry-run`, cwd)).toMatchObject({ status: 0, err: "" });

  const words = ["--routings", "series-mono,unit-first", "--tail=0", "--ask", "order=Echo"];
  const compared = await run(["compare", ...files, ...words, "--bits", "16"], { cwd });
  expect(after("The whole answer, to paste into a reply:", compared.out)).toMatch(
    /answer '.*' '.*' --routings series-mono,unit-first --tail=0 --ask order=Echo$/,
  );
  for (const label of ["The whole answer, to paste into a reply:", "Patch lists and parts:"])
    expect(copied(after(label, compared.out), cwd)).toMatchObject({ status: 0, err: "" });

  const tone = await run(["capture", "tone", "a tone.wav", "--length", "1"], { cwd });
  const next = tone.out.trimEnd().split("\n").at(-1)!.trim();
  const recorded = copied(next.replace("RECORDING", "'the rig'\\''s/my take.wav'"), cwd);
  // The words are taken; the recording is none of the tone.
  expect(recorded.err).toMatch(/^the rig's\/my take\.wav: /);

  const sweep = ["sweep", ...files, "--routings", "parallel", "--vary", "mixer.returnDb=-6,0", "--tail", "0"];
  await run([...sweep, "--out", "the parts", "--shard", "1/2"], { cwd });
  const part = await run([...sweep, "--out", "the parts", "--shard", "2/2"], { cwd });
  expect(copied(after("When all parts are there:", part.out), cwd)).toMatchObject({ status: 0, err: "" });

  // What merge tells to do is what sweep can do.
  const joined = copied(`${after("When all parts are there:", part.out)} --force`, cwd);
  expect(joined.out.replaceAll(/\s+/g, " ")).toContain("with these wishes and --render-best 3, into another");
  expect(joined.out).not.toContain("--resume");

  writeFileSync(join(cwd, "empty.yaml"), "");
  const empty = await run(["options", "empty.yaml"], { cwd });
  const told = /See "(.*)" for one to start from/.exec(empty.err)![1];
  expect(copied(told, cwd)).toMatchObject({ status: 0, err: "" });
});

onPosix("the program is called as it was", () => {
  const bin = temporaryFolder();
  symlinkSync(main, join(bin, "splitsum"));
  const installed = join(bin, "node_modules", "splitsum", "main.js");
  const home = { npm_package_name: "splitsum", npm_package_json: join(checkout, "package.json") };
  const own = { ...home, npm_lifecycle_event: "splitsum" };
  expect(calledAs({ PATH: [bin, "/bin"].join(delimiter) }, join(bin, "splitsum"))).toBe("splitsum");
  expect(calledAs({ PATH: "/bin" }, main)).toBe(`node ${shellWord(join("dist", "cli", "main.js"))}`);
  expect(calledAs({ PATH: "/bin" }, installed)).toBe("npx splitsum");
  expect(calledAs({ ...own, INIT_CWD: dirname(home.npm_package_json) }, main)).toBe("npm run -s splitsum --");
  expect(calledAs({ ...own, INIT_CWD: "/" }, main)).toBe(
    `npm run -s --prefix ${shellWord(dirname(home.npm_package_json))} splitsum --`,
  );
});

/** npm's documentation of `npm run`: scripts run in the package's folder; INIT_CWD is where npm was called. */
onPosix("by npm from elsewhere, files are found as they are named there", () => {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "here.yaml"), readFileSync(join(checkout, "fixtures/rigs/ferry-road.yaml")));
  const env = {
    ...process.env,
    npm_package_name: "splitsum",
    npm_package_json: join(checkout, "package.json"),
    npm_lifecycle_event: "splitsum",
    INIT_CWD: cwd,
  };
  const { status, stderr } = spawnSync(process.execPath, [main, "options", "here.yaml"], {
    cwd: checkout,
    env,
    encoding: "utf8",
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
});
