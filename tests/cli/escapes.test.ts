import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

/** A red name, a title of the window and a C1 control: ECMA-48, 5.3 and 5.6. */
const evil = "a\x1b[31m\x1b]0;title\x07\x9b8mz";
const shown = "a\\u001b[31m\\u001b]0;title\\u0007\\u009b8mz";

function folder(): string {
  const cwd = temporaryFolder();
  const sound = { rateHz: 8000, channels: [noise({ seed: 1, frames: 8000, rms: 0.1 })] };
  writeClip(join(cwd, `${evil}.wav`), sound, { bits: 16, force: false });
  writeFileSync(
    join(cwd, `${evil}.yaml`),
    `name: Two
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono }
`,
  );
  return cwd;
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: it is them that are looked for.
const obeyed = /[\x00-\x09\x0b-\x1f\x7f-\x9f]/;

test.skipIf(process.platform === "win32").each([
  ["a file that is missing", ["options", `${evil}.missing`], 2],
  ["an option", [`--${evil}`], 2],
  ["a command", [evil], 2],
  ["a routing", ["options", `${evil}.yaml`, "--routings", evil], 2],
  ["a recording", ["measure", `${evil}.wav`], 0],
  [
    "files of a comparison",
    ["compare", `${evil}.yaml`, `${evil}.wav`, "--routings", "series-mono", "--out", evil],
    0,
  ],
  ["a plan of a comparison", ["compare", `${evil}.yaml`, `${evil}.wav`, "--out", evil, "--dry-run"], 0],
  ["a recording beside", ["compare", `${evil}.yaml`, `${evil}.wav`, "--also", `${evil}=${evil}.wav`], 0],
])("%s reaches no terminal as it is", async (_what, words, status) => {
  const done = await run(words, { cwd: folder() });
  expect(done.status).toBe(status);
  expect(`${done.out}${done.err}`).not.toMatch(obeyed);
  expect(`${done.out}${done.err}`).toContain(shown);
});

test.skipIf(process.platform === "win32")("in JSON it means the same", async () => {
  const { out } = await run(["measure", `${evil}.wav`, "--json"], { cwd: folder() });
  expect(out).not.toMatch(obeyed);
  expect(JSON.parse(out)).toMatchObject({ recordings: [{ file: `${evil}.wav` }] });
});
