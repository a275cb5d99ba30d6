import { spawn } from "node:child_process";
import { once } from "node:events";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";
import { openOutputFolder } from "../../../src/node/files/outputFolder.js";
import { stepHangMs } from "../../limits.js";
import { temporaryFolder } from "../../temporaryFolder.js";

/** Starts `writingProgram` through a shell, which may set limits first. */
async function startWriting(dir: string, limits = "") {
  const program = join(temporaryFolder(), "program.mjs");
  buildSync({
    entryPoints: [fileURLToPath(new URL("writingProgram.ts", import.meta.url))],
    outfile: program,
    bundle: true,
    platform: "node",
    format: "esm",
  });
  const child = spawn("sh", ["-c", `${limits} exec "$0" "$@"`, process.execPath, program, dir], {
    timeout: stepHangMs,
    killSignal: "SIGKILL",
  });
  let said = "";
  child.stderr.on("data", (text: Buffer) => {
    said += text.toString();
  });
  const ended = once(child, "close");
  await once(child.stdout, "data");
  return { child, ended, said: () => said };
}

test("a disk that takes no more ends the work in one line, and nothing half is left", async () => {
  const root = temporaryFolder();
  const dir = join(root, "renders", "demo");
  const { ended, said } = await startWriting(dir, "ulimit -f 1000;");
  expect(await ended).toEqual([1, null]);
  expect(said()).toMatch(
    /^\S+\/renders\/demo\/endless\.wav: the file would be larger than this disk's files can be\. Name another place; it was not written\.\n$/,
  );
  expect(readdirSync(root)).toEqual([]);
});

test("a program that ends on Ctrl-C leaves nothing", async () => {
  const root = temporaryFolder();
  const { child, ended } = await startWriting(join(root, "renders", "demo"));
  child.kill("SIGINT");
  expect(await ended).toEqual([130, null]);
  expect(readdirSync(root)).toEqual([]);
});

test("what a killed program leaves is out of sight, and cleared away by the next", async () => {
  const root = temporaryFolder();
  const dir = join(root, "demo");
  const { child, ended } = await startWriting(dir);
  await expect(openOutputFolder(dir, { force: true })).rejects.toThrow(/another run \(process \d+ on/);
  child.kill("SIGKILL");
  expect(await ended).toEqual([null, "SIGKILL"]);
  expect(readdirSync(root).every((name) => name.startsWith("."))).toBe(true);
  const next = await openOutputFolder(dir, { force: false });
  await next.commit();
  expect(readdirSync(root)).toEqual(["demo"]);
});
