import type { ChildProcess } from "node:child_process";
import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

/** Enough work to be stopped in the middle of: all routings of three quarters of a minute. */
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
  const take = noise({ seed: 9, frames: 45 * 48_000, rms: 0.1 });
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
  ["SIGHUP", 129],
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

/**
 * The thread that hears of signals never computes for long: with one thread for the work, a sweep of one long block ends
 * in a small part of the time that it would have taken. Half of it is far from both on any machine.
 */
test("a sweep on one thread ends in the middle of a block", async () => {
  const cwd = folderWithLongTake();
  const words = (out: string) => [
    ...["sweep", "rig.yaml", "take.wav", "--threads", "1", "--routings", "parallel", "--out", out],
    ...["--vary", "mixer.returnDb=-6,0", "--most", "sideShare"],
  ];
  let begunMs = 0;
  const untilEnd = async (out: string, act: (child: ChildProcess) => void) => {
    const results = join(cwd, out, "results.jsonl");
    let waiting = Promise.resolve();
    const run1 = await run(words(out), {
      cwd,
      onStart: (child) => {
        waiting = (async () => {
          while (!existsSync(results)) await new Promise((resolve) => setTimeout(resolve, 5));
          begunMs = performance.now();
          act(child);
        })();
      },
    });
    await waiting;
    return { status: run1.status, tookMs: performance.now() - begunMs };
  };
  const whole = await untilEnd("whole", () => {});
  expect(whole.status).toBe(0);
  const stopped = await untilEnd("stopped", (child) => child.kill("SIGINT"));
  expect(stopped.status).toBe(130);
  expect(stopped.tookMs / whole.tookMs).toBeLessThan(0.5);
  expect(readdirSync(join(cwd, "stopped"))).toEqual(["results.jsonl"]);
});
