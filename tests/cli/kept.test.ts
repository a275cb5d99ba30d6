import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

/** What is of the person's own, by content and not by name, is still there whatever was asked for. */
function folderWithRig(): string {
  const cwd = temporaryFolder();
  writeFileSync(
    join(cwd, "rig.yaml"),
    `name: Kept
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 20, feedback: 0 } }
`,
  );
  const take = noise({ seed: 9, frames: 8000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 16, force: false });
  return cwd;
}

const sweep = (...more: string[]) => [
  ...["sweep", "rig.yaml", "take.wav", "--routings", "parallel", "--vary", "mixer.returnDb=-6,0"],
  ...["--most", "sideShare", "--threads", "1", ...more],
];
const tone = ["capture", "tone", "tone.wav", "--length", "0.5", "--gap", "0.3", "--lead-in", "0.3"];
const presses = ["switches", "rig.yaml", "take.wav", "--routings", "parallel", "--render", "echo:off"];

/** Everything in a folder, by name. */
const allIn = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => [join(entry.parentPath, entry.name), readFileSync(join(entry.parentPath, entry.name))]);

test.each([
  ["sweep.csv", sweep("--out", ".")],
  ["sweep.json", sweep("--out", ".", "--force")],
  ["spread.csv", sweep("--out", ".", "--resume")],
  ["results.jsonl", sweep("--out", ".", "--force")],
  ["best.yaml", sweep("--out", ".", "--render-best", "1")],
  ["page/report.html", sweep("--out", ".", "--render-best", "1", "--force")],
  ["tone.json", [...tone, "--force"]],
  ["tone.wav", [...tone, "--force"]],
  ["ferry-road.yaml", ["init", ".", "--force"]],
  ["takes/quay-piano.wav", ["init", ".", "--force"]],
  ["parallel.echo-off.wav", [...presses, "--out", ".", "--force"]],
  ["o/report.csv", ["compare", "rig.yaml", "take.wav", "--out", "o", "--force"]],
])("a %s of the person's own is refused before any work: %j", async (name, words) => {
  const cwd = folderWithRig();
  mkdirSync(join(cwd, name, ".."), { recursive: true });
  writeFileSync(join(cwd, name), "mine\n");
  const before = allIn(cwd);
  const { status, out, err } = await run([...words, "--quiet"], { cwd });
  expect({ status, out, err }).toEqual({ status: 2, out: "", err: expect.stringMatching(/^.*\n$/) });
  expect(err).toContain("nothing was written");
  expect(allIn(cwd)).toEqual(before);
});

test("the rig that a sweep is of is not replaced by the best of it", async () => {
  const cwd = folderWithRig();
  cpSync(join(cwd, "rig.yaml"), join(cwd, "best.yaml"));
  const words = sweep("--out", ".", "--render-best", "1").map((word) =>
    word === "rig.yaml" ? "best.yaml" : word,
  );
  const { status, err } = await run(words, { cwd });
  expect(status).toBe(2);
  expect(err).toContain("best.yaml: is the rig that is swept");
  expect(readFileSync(join(cwd, "best.yaml"))).toEqual(readFileSync(join(cwd, "rig.yaml")));
});

test("what was written is replaced when asked, and what was changed since is not", async () => {
  const cwd = folderWithRig();
  const first = await run(sweep("--out", "s", "--render-best", "1"), { cwd });
  expect(first.status, first.err).toBe(0);
  const again = await run(sweep("--out", "s", "--render-best", "1", "--force"), { cwd });
  expect(again.status, again.err).toBe(0);
  const edited = join(cwd, "s", "best.yaml");
  writeFileSync(edited, `${readFileSync(edited, "utf8")}# louder in the hall\n`);
  const resumed = await run(sweep("--out", "s", "--render-best", "1", "--resume"), { cwd });
  expect(resumed.status).toBe(2);
  expect(resumed.err).toMatch(/best\.yaml: exists already, and is not as splitsum wrote it/);
  expect(readFileSync(edited, "utf8")).toContain("louder in the hall");

  writeFileSync(join(cwd, "s", "sweep.csv"), "mine\n");
  const joined = await run(["merge", "s/results.jsonl", "--force"], { cwd });
  expect(joined.status).toBe(2);
  expect(readFileSync(join(cwd, "s", "sweep.csv"), "utf8")).toBe("mine\n");

  writeFileSync(join(cwd, "s", "best", "report.csv"), "mine\n");
  const compared = await run(["compare", "rig.yaml", "take.wav", "--out", "s/best", "--force"], { cwd });
  expect(compared.status).toBe(2);
  expect(compared.err).toMatch(/what was changed since splitsum wrote it \(report\.csv\)/);
  expect(readFileSync(join(cwd, "s", "best", "report.csv"), "utf8")).toBe("mine\n");
});

test("capture tone and init replace what they wrote themselves, with --force", async () => {
  const cwd = folderWithRig();
  for (const words of [tone, [...tone, "--force"], ["init", "demo"], ["init", "demo", "--force"]]) {
    const { status, err } = await run(words, { cwd });
    expect(status, err).toBe(0);
  }
  expect(existsSync(join(cwd, "demo", "takes", "ferry-road.wav"))).toBe(true);
  const stranger = [...tone, "--force", "--length", "0.6"];
  writeFileSync(join(cwd, "tone.json"), "mine\n");
  expect((await run(stranger, { cwd })).status).toBe(2);
  expect(readFileSync(join(cwd, "tone.json"), "utf8")).toBe("mine\n");
});
