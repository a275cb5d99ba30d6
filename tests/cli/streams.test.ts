import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { stepHangMs } from "../limits.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

const file = (name: string) => fileURLToPath(new URL(`../../${name}`, import.meta.url));
const rig = file("fixtures/rigs/ferry-road.yaml");

/** What a shell makes of the words, with the program as $SPLITSUM and the demo rig as $RIG. */
function shell(words: string) {
  const { status, stdout, stderr } = spawnSync("sh", ["-c", words], {
    cwd: temporaryFolder(),
    encoding: "utf8",
    timeout: stepHangMs,
    env: { ...process.env, SPLITSUM: `${process.execPath} ${file("dist/cli/main.js")}`, RIG: rig },
  });
  return { status, stdout, stderr };
}

/** With neither reader there any more, the status alone says how it went. */
test.each([
  [["options", "missing.yaml"], 2],
  [["optoins"], 2],
  [["options", rig], 0],
])("the status of %j outlives its readers", async (words, status) => {
  const done = await run(words, {
    onStart: (child) => {
      child.stdout?.destroy();
      child.stderr?.destroy();
    },
  });
  expect(done).toEqual({ status, out: "", err: "" });
});

/** /dev/full takes nothing: ENOSPC (full(4) of Linux). */
test.skipIf(!existsSync("/dev/full"))("an answer that finds no room is told in a line", () => {
  const says = "splitsum: standard output: the disk is full; the answer was not written whole.\n";
  for (const words of ["--help", "options $RIG", "schema"]) {
    expect(shell(`$SPLITSUM ${words} > /dev/full`)).toMatchObject({ status: 1, stderr: says });
  }
  expect(shell("$SPLITSUM options missing.yaml 2> /dev/full")).toMatchObject({ status: 2, stdout: "" });
});

/** `ulimit -n`: POSIX.1-2017, RLIMIT_NOFILE. The loader of modules meets it first. */
test.skipIf(process.platform === "win32")("too few open files are told in a line", () => {
  const says =
    'splitsum: the system lets too few files be open at a time. Allow 4096, as by "ulimit -n 4096", or use fewer threads.\n';
  for (const most of [24, 40, 64]) {
    const words = `ulimit -n ${most}; exec $SPLITSUM compare $RIG --out o`;
    expect(shell(words), `${most} files`).toEqual({ status: 1, stdout: "", stderr: says });
  }
  expect(shell("ulimit -n 256; exec $SPLITSUM options $RIG --json").status).toBe(0);
});
