import { readdirSync, writeFileSync } from "node:fs";
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
    `name: Limited
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 20, feedback: 0 } }
`,
  );
  const take = noise({ seed: 9, frames: 16_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 16, force: false });
  return cwd;
}

/** Limits between what Node begins with and what two threads take, in KiB: RLIMIT_AS, POSIX.1-2017, getrlimit(). */
test.runIf(process.platform === "linux").each([3e6, 12e6, 24e6, 40e6])(
  "a limit of %i KiB of addresses ends each command in one line, with nothing left",
  async (kib) => {
    const cwd = folderWithRig();
    const rig = ["rig.yaml", "take.wav"];
    for (const words of [
      ["compare", ...rig, "--out", "o"],
      ["switches", ...rig],
      [
        "sweep",
        ...rig,
        "--vary",
        "mixer.returnDb=-6,0",
        "--most",
        "sideShare",
        "--out",
        "s",
        "--threads",
        "2",
      ],
    ]) {
      const { status, out, err } = await run([...words, "--quiet"], { cwd, limits: `ulimit -v ${kib};` });
      expect({ words, status, out }).toEqual({ words, status: 1, out: "" });
      expect(err).toMatch(/^splitsum: (the system lets the program have|there is not enough memory).*\n$/);
      expect(readdirSync(cwd).filter((name) => !["rig.yaml", "take.wav", "s"].includes(name))).toEqual([]);
    }
  },
);
