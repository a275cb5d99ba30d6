import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

function folderWithRig(): string {
  const cwd = temporaryFolder();
  writeFileSync(
    join(cwd, "rig.yaml"),
    `name: Full
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 20, feedback: 0 } }
`,
  );
  const take = noise({ seed: 9, frames: 32_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 16, force: false });
  return cwd;
}

/**
 * The first file fits, the last does not: all or none. Blocks of `ulimit -f` are of 512 bytes, POSIX.1-2017, ulimit;
 * some shells take 1024.
 */
test.each([
  [["capture", "tone", "tone.wav", "--length", "0.5"]],
  [["init", "demo"]],
  [["init", "."]],
  [["switches", "rig.yaml", "take.wav", "--routings", "parallel,series-mono", "--render", "echo:off"]],
  [["compare", "rig.yaml", "take.wav", "--routings", "parallel", "--out", "a/b/o"]],
])("a disk that takes no more leaves nothing of %j", async (words) => {
  const cwd = folderWithRig();
  const { status, out, err } = await run(words, { cwd, limits: "ulimit -f 60;" });
  expect({ status, out }).toEqual({ status: 1, out: "" });
  expect(err).toMatch(
    /^\S+: the file would be larger than this disk's files can be\..*; it was not written\.\n$/,
  );
  expect(readdirSync(cwd).sort()).toEqual(["rig.yaml", "take.wav"]);
});

test("on a disk that takes no more, what was written before stays", async () => {
  const cwd = folderWithRig();
  const tone = ["capture", "tone", "tone.wav", "--length", "0.5", "--gap", "0.3", "--lead-in", "0.3"];
  expect((await run(tone, { cwd })).status).toBe(0);
  const before = readFileSync(join(cwd, "tone.json"));
  const names = readdirSync(cwd).sort();
  const longer = await run([...tone, "--length", "2", "--force"], { cwd, limits: "ulimit -f 60;" });
  expect(longer.status).toBe(1);
  expect(readFileSync(join(cwd, "tone.json"))).toEqual(before);
  expect(readdirSync(cwd).sort()).toEqual(names);
});
