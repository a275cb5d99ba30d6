import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { run } from "../cli/run.js";
import { noise, randomNumbers } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";

const disks = Number(process.env.DISKS ?? 50);
const seed = 47;
/** Longer than any of these runs takes on a loaded machine. */
const hangMs = 60_000;

const rig = `name: Small
pedals:
  - { name: Swing, model: chorus, jacks: mono-to-stereo }
  - { name: Echo, model: delay, jacks: mono, settings: { mix: 0.4, delayMs: 100, feedback: 0.3 } }
`;

/** A tmpfs of a stated size, as tmpfs(5) of Linux has it; only root may mount one. */
function onDisk(folder: string, options: string) {
  const disk = join(folder, "disk");
  mkdirSync(disk, { recursive: true });
  const mount = 'mount -t tmpfs -o "$0" tmpfs "$1"';
  const mounted = spawnSync("sh", ["-c", mount, options, disk], { encoding: "utf8" });
  if (mounted.status !== 0) throw new Error(`this needs Linux and root: ${mounted.stderr}`);
  return { disk, unmount: () => spawnSync("sh", ["-c", 'umount "$0"', disk]) };
}

test(`${disks} disks of a random size are filled: one line, and nothing left`, async () => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, "rig.yaml"), rig);
  const take = noise({ seed: 9, frames: 24_000, rms: 0.1 });
  writeClip(join(folder, "take.wav"), { rateHz: 48_000, channels: [take] }, { bits: 16, force: false });
  const next = randomNumbers(seed);
  const seen = { whole: 0, full: 0 };
  for (let n = 0; n < disks; n++) {
    // What is written takes 7 MB and 26 files at the most.
    const bytes = 2 ** (14 + 9.5 * next());
    const options = n % 2 ? `size=${Math.round(bytes)}` : `size=50m,nr_inodes=${2 + Math.floor(26 * next())}`;
    const { disk, unmount } = onDisk(folder, options);
    try {
      const { status, err } = await run(["compare", "rig.yaml", "take.wav", "--out", "disk/out"], {
        cwd: folder,
        onStart: (child) => {
          const timer = setTimeout(() => child.kill("SIGKILL"), hangMs);
          child.on("close", () => clearTimeout(timer));
        },
      });
      if (status === 0) {
        seen.whole++;
        continue;
      }
      seen.full++;
      expect({ options, status, err }).toEqual({ options, status: 1, err: expect.stringMatching(/^.*\n$/) });
      expect(err, options).toContain("the disk is full. Make room or name another place");
      expect(readdirSync(disk), options).toEqual([]);
    } finally {
      unmount();
    }
  }
  console.log(`${disks} disks: ${seen.full} were too small, ${seen.whole} held all`);
});

test("a disk that is mounted where the results are to go takes them", async () => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, "rig.yaml"), rig);
  const take = noise({ seed: 9, frames: 24_000, rms: 0.1 });
  writeClip(join(folder, "take.wav"), { rateHz: 48_000, channels: [take] }, { bits: 16, force: false });
  const { disk, unmount } = onDisk(folder, "size=50m");
  try {
    const words = ["compare", "rig.yaml", "take.wav", "--out", "disk"];
    const first = await run(words, { cwd: folder });
    expect(first.status, first.err).toBe(0);
    expect(readdirSync(disk)).toContain("report.html");
    expect(readdirSync(disk).filter((name) => name.startsWith("."))).toEqual([".splitsum.json"]);
    const again = await run([...words, "--force"], { cwd: folder });
    expect(again.status).toBe(2);
    expect(again.err).toMatch(
      /^disk: already holds \d+ files, and cannot be replaced where it stands\..*\n$/,
    );
  } finally {
    unmount();
  }
});
