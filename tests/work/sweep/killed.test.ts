import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../../src/node/audio/writeClip.js";
import { run } from "../../cli/run.js";
import { runsOf } from "../../longForm.js";
import { noise } from "../../signals.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { tables } from "./smallSweep.js";

const rig = `name: Killed
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 120, feedback: 0.2 } }
`;

function folderWithRig(takeSeconds: number): string {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "rig.yaml"), rig);
  const take = noise({ seed: 9, frames: takeSeconds * 16_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 16, force: false });
  return cwd;
}

/** Enough for several units of work. */
const settings = runsOf(27);

const words = (out: string, ...more: string[]) => [
  ...["sweep", "rig.yaml", "take.wav", "--out", out],
  ...[
    "--vary",
    `Echo.delayMs=60..400/${settings}`,
    "--vary",
    "mixer.returnDb=-20..0/3",
    "--want",
    "sideShare>=0.1",
  ],
  ...more,
];

const unitsDone = (file: string): number =>
  existsSync(file) ? (readFileSync(file, "utf8").match(/"unit":\d+,"results":\d+\}\n/g)?.length ?? 0) : 0;

test("killed over and over, a sweep on two threads ends with the bytes of one that ran through on one", async () => {
  const cwd = folderWithRig(0.5);
  const few = ["--routings", "series-mono,dual-mono,parallel", "--tail", "1"];
  const through = await run(words("whole", "--threads", "1", ...few), { cwd });
  expect(through.status, through.err).toBe(0);

  const file = join(cwd, "killed", "results.jsonl");
  const all = unitsDone(join(cwd, "whole", "results.jsonl"));
  expect(all).toBeGreaterThanOrEqual(4);
  let kills = 0;
  for (let before = 0; before < all - 1; ) {
    await run(words("killed", "--threads", "2", "--resume", ...few), {
      cwd,
      onStart: async (child) => {
        // kill -9 once one more unit is in the file: no handler of the program's runs.
        while (child.exitCode === null && unitsDone(file) < Math.min(all, before + 1))
          await new Promise((resolve) => setTimeout(resolve, 5));
        child.kill("SIGKILL");
        kills++;
      },
    });
    const done = unitsDone(file);
    expect(done).toBeGreaterThan(before);
    before = done;
  }
  // How many it takes hangs on the machine; the loop ends after the last.
  expect(kills).toBeGreaterThan(0);

  const last = await run(words("killed", "--threads", "2", "--resume", "--json", ...few), { cwd });
  expect(last.status, last.err).toBe(0);
  expect(unitsDone(file)).toBe(all);
  expect(tables(join(cwd, "killed"))).toEqual(tables(join(cwd, "whole")));
});

/** 130: 128 and the number of SIGINT, common practice of POSIX shells. */
test("Ctrl-C stops cleanly and keeps what is done", async () => {
  const cwd = folderWithRig(3);
  const file = join(cwd, "o", "results.jsonl");
  const few = ["--routings", "dual-mono,parallel", "--tail", "1"];
  const stopped = await run(words("o", ...few), {
    cwd,
    onStart: async (child) => {
      while (child.exitCode === null && unitsDone(file) < 1)
        await new Promise((resolve) => setTimeout(resolve, 5));
      child.kill("SIGINT");
    },
  });
  expect(stopped.status).toBe(130);
  expect(stopped.out).toBe("");
  const done = unitsDone(file);
  expect(done).toBeGreaterThan(0);
  expect(existsSync(join(cwd, "o", "sweep.csv"))).toBe(false);
  const resumed = await run(words("o", "--resume", ...few), { cwd });
  expect(resumed.status, resumed.err).toBe(0);
  expect(resumed.out).toMatch(/ done before/);
});
