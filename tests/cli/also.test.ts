import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { readClip } from "../../src/node/audio/readClip.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import type { Report } from "../../src/work/compare/report.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { expectWithin } from "../within.js";
import { run } from "./run.js";

const rigText = `name: Quarry shed
take: take.wav
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo, settings: { spreadDegrees: 180, depth: 0.5 } }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 120, mix: 0.4 } }
`;
const rateHz = 16_000;

/** A folder with a rig, its take, and what the rig's own `dual-mono` gives, 1000 frames late and 6 dB down. */
const cwd = temporaryFolder();
beforeAll(async () => {
  writeFileSync(join(cwd, "rig.yaml"), rigText);
  const take = noise({ seed: 5, frames: 3 * rateHz, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz, channels: [take] }, { bits: 24, force: false });
  const made = await run(["compare", "rig.yaml", "--routings", "dual-mono", "--no-match", "--out", "made"], {
    cwd,
  });
  expect(made.status).toBe(0);
  const clip = await readClip(join(cwd, "made", "dual-mono.wav"), { allowTruncated: false });
  const channels = clip.channels.map((side) => {
    const late = new Float32Array(side.length + 1000);
    for (let n = 0; n < side.length; n++) late[n + 1000] = 0.5 * side[n];
    return late;
  });
  writeClip(join(cwd, "real.wav"), { rateHz, channels }, { bits: 24, force: false });
  const other = noise({ seed: 77, frames: 3 * rateHz, rms: 0.1 });
  writeClip(join(cwd, "other.wav"), { rateHz, channels: [other] }, { bits: 24, force: false });
});

test("a recording stands beside the renders: aligned, measured, matched, written", async () => {
  const words = [
    "compare",
    "rig.yaml",
    "--routings",
    "dual-mono,summed",
    "--also",
    "real=real.wav",
    "--out",
    "o",
  ];
  const { status, out, err } = await run([...words, "--json"], { cwd });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  const report: Report = JSON.parse(out);
  const [dual, , real] = report.routings;
  expect(real).toMatchObject({ id: "real", label: "real", possible: true, build: null });
  expect(real.recorded).toMatchObject({ file: "real.wav", channels: 2, invertsPolarity: false });
  expectWithin(real.recorded!.latencyMs, 62.5, 0.02, "ms");
  // The same sound 6.02 dB down: every figure of the render, and a gain that makes up for it.
  expectWithin(real.measures!.correlation, dual.measures!.correlation!, 1e-3);
  expectWithin(real.measures!.sideShare, dual.measures!.sideShare!, 1e-3);
  expectWithin(real.matchGainDb, dual.matchGainDb! + 20 * Math.log10(2), 0.02, "dB");
  expect(readdirSync(join(cwd, "o"))).toEqual(expect.arrayContaining(["real.wav", "real.mono.wav"]));
  const [render, recording] = await Promise.all(
    ["dual-mono", "real"].map((id) => readClip(join(cwd, "o", `${id}.wav`), { allowTruncated: false })),
  );
  let most = 0;
  for (let n = 0; n < 3 * rateHz; n++)
    most = Math.max(most, Math.abs(render.channels[0][n] - recording.channels[0][n]));
  expect(most).toBeLessThan(0.003);
  const csv = readFileSync(join(cwd, "o", "report.csv"), "utf8");
  expect(csv).toMatch(/^.*,real,real,true,,false,.*,real\.wav,62\.(?:49|50)/m);
});

test("the table tells it is recorded; it may be the reference; a dry run names it", async () => {
  const words = [
    "compare",
    "rig.yaml",
    "--routings",
    "summed",
    "--also",
    "Real rig=real.wav",
    "--reference",
    "real-rig",
  ];
  const plan = await run([...words, "--dry-run"], { cwd });
  expect(plan.out).toMatch(/beside them real-rig, recorded: real\.wav\n {2}compared with real-rig/);
  const { status, out } = await run(words, { cwd });
  expect(status).toBe(0);
  expect(out).toMatch(/^\* {2}real-rig +/m);
  expect(out.replace(/\s+/g, " ")).toContain("Recorded (real.wav), 62.5 ms late, which is taken out.");
});

/** One clear line, status 2, nothing written. */
test.each([
  ["real", "Write a name, an equals sign and a file, as in real=rig.wav."],
  ["real=none.wav", "none.wav: there is no such file or folder."],
  ["dry=real.wav", '"dry" is a routing already. Choose another name.'],
  ["real=rig.yaml", "rig.yaml: is not a sound file that can be read."],
  ["real=other.wav", "other.wav: does not follow the dry take"],
])("compare --also %s", async (word, says) => {
  const { status, out, err } = await run(["compare", "rig.yaml", "--also", word, "--out", "refused"], {
    cwd,
  });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toContain(says);
  expect(existsSync(join(cwd, "refused"))).toBe(false);
});
