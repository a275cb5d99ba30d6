import { execFileSync, spawnSync } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { stepHangMs } from "../limits.js";
import { temporaryFolder } from "../temporaryFolder.js";

const file = (name: string) => fileURLToPath(new URL(`../../${name}`, import.meta.url));
const rig = file("fixtures/rigs/ferry-road.yaml");

/** A pipe that nobody writes to: opening it to read waits for ever (POSIX.1-2017, open()). Windows has no such files. */
test.skipIf(process.platform === "win32").each([
  ["measure PIPE", "a sound file"],
  [`levels ${rig} PIPE`, "a sound file"],
  ["capture align PIPE PIPE", "a sound file"],
  [`capture response ${file("fixtures/takes/ferry-road.wav")} --tone PIPE`, "a description of a tone"],
  ["merge PIPE --out joined", "a file of results"],
])("%s refuses a pipe at once", (words, what) => {
  const folder = temporaryFolder();
  const pipe = join(folder, "pipe");
  execFileSync("mkfifo", [pipe]);
  const list = words.split(" ").map((word) => (word === "PIPE" ? pipe : word));
  const { status, stderr } = spawnSync(process.execPath, [file("dist/cli/main.js"), ...list], {
    cwd: folder,
    encoding: "utf8",
    // Only a command that hangs gets here.
    timeout: stepHangMs,
  });
  expect({ status, stderr }).toEqual({
    status: 2,
    stderr: `${pipe}: is a pipe or a device, where ${what} on a disk is needed. Save it to a file first.\n`,
  });
});
