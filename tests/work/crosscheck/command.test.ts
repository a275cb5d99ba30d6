import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";
import { writeClip } from "../../../src/node/audio/writeClip.js";
import { routingIds } from "../../../src/rig/routings/routing.js";
import { run } from "../../cli/run.js";
import { stepHangMs } from "../../limits.js";
import { sine } from "../../signals.js";
import { temporaryFolder } from "../../temporaryFolder.js";

const rigText = `name: Weigh house
take: take.wav
pedals:
  - { name: Swing, model: vibrato, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 50 }, latencyMs: 1.1 }
`;

function folderWithRig(text = rigText): string {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "rig.yaml"), text);
  const take = sine({ frequencyHz: 440, rateHz: 16_000, lengthSeconds: 1, peakDbfs: -12 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 24, force: false });
  return cwd;
}

test("crosscheck: a row a routing, and what was compared", async () => {
  const { status, out, err } = await run(["crosscheck", "rig.yaml", "--seconds", "0.5"], {
    cwd: folderWithRig(),
  });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out).toContain("Weigh house, take.wav (the first 0.5 s of 1.0 s)");
  expect(out).toMatch(/^dual-mono +-1\d\d\.\d +-\d+\.\d +-1\d\d\.\d {2}Swing: a delay that swings$/m);
  expect(out).toContain(`${routingIds.length} routings compared, all within what they may differ.`);
});

test("crosscheck --json", async () => {
  const words = ["crosscheck", "rig.yaml", "--seconds", "0.5", "--routings", "dual-mono,parallel", "--json"];
  const { status, out } = await run(words, { cwd: folderWithRig() });
  const report = JSON.parse(out);
  expect(status).toBe(0);
  expect(report).toMatchObject({ schemaVersion: 2, take: { playedFrames: 8000, frames: 16_000 } });
  expect(report.routings.map(({ id }: { id: string }) => id)).toEqual(["dual-mono", "parallel"]);
  for (const { rmsDbfs, peakDbfs, targetBy, skipped } of report.routings) {
    expect({ targetBy, skipped }).toEqual({ targetBy: "Swing: a delay that swings", skipped: null });
    expect(rmsDbfs).toBeLessThan(-110);
    expect(peakDbfs).toBeLessThan(-90);
  }
});

test("what no standard node makes is told with its reason, and the rest is judged", async () => {
  const text = rigText.replace("model: delay", "model: spring").replace("settings: { delayMs: 50 }, ", "");
  const { status, out } = await run(["crosscheck", "rig.yaml"], { cwd: folderWithRig(text) });
  expect(status).toBe(0);
  expect(out.replaceAll(/\s+/g, " ")).toContain(
    "is judged: Echo in all but stereo-unit and Stereo Echo in stereo-unit (spring: its chain of all-passes",
  );
  expect(out).toContain(`${routingIds.length} routings compared, all within what they may differ.`);
});

test("a silent take is refused: two silences agree whatever the engines do", async () => {
  const cwd = folderWithRig();
  const silence = { rateHz: 16_000, channels: [new Float32Array(16_000)] };
  writeClip(join(cwd, "silent.wav"), silence, { bits: 24, force: false });
  const { status, out, err } = await run(["crosscheck", "rig.yaml", "silent.wav"], { cwd });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toBe("silent.wav: holds no sound (1.0 s of zeros). Choose a take with a signal in it.\n");
});

test("wrong words", async () => {
  const { status, out, err } = await run(["crosscheck", "rig.yaml", "--seconds", "0"], {
    cwd: folderWithRig(),
  });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toContain("Write a number of seconds from 0.1 to 600.");
});

test("without the optional package it is said what is missing, and what to do", () => {
  const program = join(temporaryFolder(), "program.mjs");
  const source = new URL("../../../src/node/crosscheck/openOffline.ts", import.meta.url);
  buildSync({
    stdin: {
      contents: `import { openOffline } from "./openOffline.ts"; openOffline().catch((e) => console.log(e.exitStatus, e.message));`,
      resolveDir: fileURLToPath(new URL(".", source)),
    },
    outfile: program,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["web-audio-api"],
  });
  expect(spawnSync(process.execPath, [program], { encoding: "utf8", timeout: stepHangMs }).stdout).toBe(
    "1 the cross-check needs the optional package web-audio-api, which is not installed. Run npm install web-audio-api.\n",
  );
});
