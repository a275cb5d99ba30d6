import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

/** Enough work to be stopped in the middle of: all routings of a minute and a half. */
function folderWithLongTake(): string {
  const cwd = temporaryFolder();
  writeFileSync(
    join(cwd, "rig.yaml"),
    `name: Long
pedals:
  - { name: Swing, model: chorus, jacks: mono-to-stereo }
  - { name: Room, model: hall, jacks: mono }
`,
  );
  const take = noise({ seed: 9, frames: 90 * 48_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 48_000, channels: [take] }, { bits: 16, force: false });
  return cwd;
}

/** The rendering has begun once the folder beside the output stands. */
async function whenWriting(cwd: string, act: () => void): Promise<void> {
  while (readdirSync(cwd).length <= 2) await new Promise((resolve) => setTimeout(resolve, 20));
  act();
}

/** Exit status 128 + signal number: common practice of POSIX shells. */
test.each([
  ["SIGINT", 130],
  ["SIGTERM", 143],
] as const)("%s ends a comparison with %i, and leaves nothing behind", async (signal, status) => {
  const cwd = folderWithLongTake();
  let stopping = Promise.resolve();
  const result = await run(["compare", "rig.yaml", "take.wav", "--out", "o"], {
    cwd,
    onStart: (child) => {
      stopping = whenWriting(cwd, () => child.kill(signal));
    },
  });
  await stopping;
  expect({ status: result.status, out: result.out }).toEqual({ status, out: "" });
  expect(result.err).toBe("splitsum: stopping; once more ends at once.\n");
  expect(readdirSync(cwd).sort()).toEqual(["rig.yaml", "take.wav"]);
});

/** EPIPE, POSIX.1-2017, write(): a reader that leaves is no error of the writer. */
test("a closed pipe ends the program quietly", async () => {
  const result = await run(["schema"], {
    onStart: (child) => {
      child.stdout?.destroy();
    },
  });
  expect(result).toEqual({ status: 0, out: "", err: "" });
});
