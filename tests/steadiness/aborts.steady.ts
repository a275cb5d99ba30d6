import { spawnSync } from "node:child_process";
import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";

const aborts = Number(process.env.ABORTS ?? 30);
const library = new URL("../../dist/index.js", import.meta.url).href;

const program = `
import { compare, readRig, readTake } from ${JSON.stringify(library)};
const rig = await readRig("rig.yaml");
const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
const options = { rig, rigFile: "rig.yaml", take, routings: null, reference: null, tailSeconds: 2, bits: 24, match: true };
for (let n = 0; n < ${aborts}; n++) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(new Error("stop")), Math.random() * 1500);
  const ended = await compare({ ...options, outDir: "o", force: true, signal: stop.signal }).catch((error) => error.message);
  if (typeof ended === "string" && ended !== "stop") throw new Error(ended);
  clearTimeout(timer);
}
`;

/** A thread that is ended from outside ends the program by an assertion of Node 20 at some moments of its life. */
test(`${aborts} comparisons stopped at a random moment leave the program that asked for them alive`, () => {
  const cwd = temporaryFolder();
  writeFileSync(
    join(cwd, "rig.yaml"),
    `name: Aborted
pedals:
  - { name: Swing, model: chorus, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { mix: 0.4, delayMs: 100, feedback: 0.3 } }
`,
  );
  const take = noise({ seed: 9, frames: 24_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 48_000, channels: [take] }, { bits: 16, force: false });
  writeFileSync(join(cwd, "program.mjs"), program);
  const { status, stderr } = spawnSync(process.execPath, ["program.mjs"], { cwd, encoding: "utf8" });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(
    readdirSync(cwd)
      .filter((name) => name !== "o")
      .sort(),
  ).toEqual(["program.mjs", "rig.yaml", "take.wav"]);
});
