import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { timingsText } from "../../src/cli/timings.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

test("stages follow each other, and their sum is the whole", () => {
  const calling = new Map([
    ["start", 200],
    ["read", 1050],
    ["", 0],
  ]);
  expect(timingsText(calling, new Map([["render", 2500]]))).toBe(
    `
stage                 from s   took s
start                  0.000    0.200
read                   0.200    1.050
whole                           1.250
render                beside    2.500`.trimStart(),
  );
});

/** Every row as name and seconds. */
const rowsOf = (table: string) =>
  table
    .trim()
    .split("\n")
    .slice(1)
    .map((line) => /^(.+?) {2,}(\S* +)?(\d+\.\d{3})$/.exec(line) ?? [])
    .map(([, stage, from = "", took]) => ({ stage, isBeside: from.trim() === "beside", took: Number(took) }));

test("compare tells what its time goes into, where nobody but who asks sees it", async () => {
  const cwd = temporaryFolder();
  writeFileSync(
    join(cwd, "rig.yaml"),
    `name: Timed
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 20, feedback: 0 } }
`,
  );
  const take = noise({ seed: 9, frames: 16_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 16, force: false });
  const words = ["compare", "rig.yaml", "take.wav", "--quiet", "--force", "--out", "o"];
  const plain = await run(words, { cwd });
  const timed = await run([...words, "--timings"], { cwd });
  expect(plain.err).toBe("");
  expect({ out: timed.out, status: timed.status }).toEqual({ out: plain.out, status: 0 });

  const rows = rowsOf(timed.err);
  const whole = rows.find(({ stage }) => stage === "whole");
  const calling = rows.slice(
    0,
    rows.findIndex(({ stage }) => stage === "whole"),
  );
  expect(calling.map(({ stage }) => stage)).toEqual(
    expect.arrayContaining(["start", "read", "returns", "render and measure", "match", "write", "page"]),
  );
  const sum = calling.reduce((seconds, { took }) => seconds + took, 0);
  // Each figure is rounded to a thousandth.
  expect(Math.abs((whole?.took ?? 0) - sum)).toBeLessThanOrEqual(0.00051 * (calling.length + 1));
  const beside = rows.filter(({ isBeside }) => isBeside).map(({ stage }) => stage);
  expect(beside).toEqual(expect.arrayContaining(["render", "measure", "figures", "encode"]));

  expect((await run(["compare", "--help"])).out).not.toContain("timings");
});
