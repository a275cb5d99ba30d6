import { spawnSync } from "node:child_process";
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";
import { ownerFile, partFolderOf } from "../../../src/node/files/folderLock.js";
import { openOutputFolder } from "../../../src/node/files/outputFolder.js";
import { UserError } from "../../../src/text/userError.js";
import { temporaryFolder } from "../../temporaryFolder.js";

async function writeResults(dir: string, content: string, force = false): Promise<void> {
  const output = await openOutputFolder(dir, { force });
  writeFileSync(join(output.folder, "report.json"), content);
  mkdirSync(join(output.folder, "sheets"));
  writeFileSync(join(output.folder, "sheets", "parallel.txt"), content);
  await output.commit();
}
const visible = (dir: string) => readdirSync(dir).filter((name) => !name.startsWith("."));

test("appears whole at the end and not before, with the folders above it", async () => {
  const root = temporaryFolder();
  const dir = join(root, "renders", "ferry-road");
  const output = await openOutputFolder(dir, { force: false });
  writeFileSync(join(output.folder, "a.wav"), "sound");
  expect(existsSync(dir)).toBe(false);
  await output.commit();
  output.discard();
  expect(visible(dir)).toEqual(["a.wav"]);
  expect(readdirSync(join(root, "renders"))).toEqual(["ferry-road"]);
});

test("discard leaves nothing, not even the folders that were made for it", async () => {
  const root = temporaryFolder();
  const output = await openOutputFolder(join(root, "renders", "deep", "ferry-road"), { force: false });
  writeFileSync(join(output.folder, "a.wav"), "half");
  output.discard();
  expect(readdirSync(root)).toEqual([]);
});

test("a folder with files is refused, and stays as it is", async () => {
  const dir = join(temporaryFolder(), "demo");
  await writeResults(dir, "old");
  await expect(openOutputFolder(dir, { force: false })).rejects.toThrow(
    `${dir}: already holds 2 files. Name an empty folder or use --force; nothing was written.`,
  );
  expect(readFileSync(join(dir, "report.json"), "utf8")).toBe("old");
});

test("with force the old results stay until the new ones are complete", async () => {
  const root = temporaryFolder();
  const dir = join(root, "demo");
  await writeResults(dir, "old");
  const output = await openOutputFolder(dir, { force: true });
  writeFileSync(join(output.folder, "report.json"), "new");
  expect(readFileSync(join(dir, "report.json"), "utf8")).toBe("old");
  await output.commit();
  expect(visible(dir)).toEqual(["report.json"]);
  expect(readFileSync(join(dir, "report.json"), "utf8")).toBe("new");
  expect(readdirSync(root)).toEqual(["demo"]);
});

test("force removes nothing that the program did not write", async () => {
  const dir = join(temporaryFolder(), "demo");
  await writeResults(dir, "old");
  writeFileSync(join(dir, "sheets", "notes.txt"), "mine");
  await expect(openOutputFolder(dir, { force: true })).rejects.toThrow(
    /did not write \(sheets\/notes\.txt\)/,
  );

  const holiday = join(temporaryFolder(), "holiday");
  mkdirSync(holiday);
  writeFileSync(join(holiday, "beach.jpg"), "");
  await expect(openOutputFolder(holiday, { force: true })).rejects.toThrow(/did not write \(beach\.jpg\)/);
  await expect(openOutputFolder(holiday, { force: false })).rejects.toThrow(
    /already holds 1 file\. Name an empty folder;/,
  );
  expect(visible(holiday)).toEqual(["beach.jpg"]);
});

test("an empty folder is used; a file and the folder one stands in are refused", async () => {
  const root = temporaryFolder();
  mkdirSync(join(root, "empty"));
  await writeResults(join(root, "empty"), "x");
  expect(visible(join(root, "empty"))).toEqual(["report.json", "sheets"]);
  writeFileSync(join(root, "file"), "");
  await expect(openOutputFolder(join(root, "file"), { force: true })).rejects.toThrow(
    /is a file\. Name a folder/,
  );
  await expect(openOutputFolder(join(root, "file", "demo"), { force: true })).rejects.toThrow(UserError);
  await expect(openOutputFolder(".", { force: true })).rejects.toThrow(/the folder that you are in/);
});

test("of two runs at once the second is refused, and the first is not disturbed", async () => {
  const dir = join(temporaryFolder(), "demo");
  const first = await openOutputFolder(dir, { force: false });
  writeFileSync(join(first.folder, "a.wav"), "first");
  await expect(openOutputFolder(dir, { force: true })).rejects.toThrow(
    /another run \(process \d+ on .+\) is writing here/,
  );
  await first.commit();
  expect(readFileSync(join(dir, "a.wav"), "utf8")).toBe("first");
});

/** A part folder as a run that cannot be asked for by its process left it, last heard of so long ago. */
function leftPart(dir: string, silentSeconds: number): string {
  const part = partFolderOf(dir);
  mkdirSync(part);
  const owner = { id: "x", pid: 1, where: "another machine", began: "1", host: "elsewhere" };
  writeFileSync(join(part, ownerFile), JSON.stringify(owner));
  const heard = new Date(Date.now() - 1000 * silentSeconds);
  utimesSync(join(part, ownerFile), heard, heard);
  writeFileSync(join(part, "half.wav"), "half");
  return part;
}

test("what a killed run on another machine left is cleared away once it was silent for long", async () => {
  const root = temporaryFolder();
  const dir = join(root, "demo");
  leftPart(dir, 60);
  const stray = join(root, ".demo.splitsum-part-aB3xYz");
  mkdirSync(stray);
  utimesSync(stray, new Date(0), new Date(0));
  await writeResults(dir, "new");
  expect(visible(dir)).toEqual(["report.json", "sheets"]);
  expect(readdirSync(root)).toEqual(["demo"]);
});

/** Process 1 is always there; in a container that is begun anew it is another one, by proc(5) field 22. */
test("what a killed run of the same process number left is cleared away at once", async () => {
  const root = temporaryFolder();
  const dir = join(root, "demo");
  const first = await openOutputFolder(dir, { force: false });
  const file = join(first.folder, ownerFile);
  const owner = JSON.parse(readFileSync(file, "utf8"));
  writeFileSync(file, JSON.stringify({ ...owner, id: "killed", pid: 1, began: "0" }));
  await writeResults(dir, "new");
  expect(readdirSync(root)).toEqual(["demo"]);
  // The first was taken for dead: it does not put its half over the whole results of the other.
  await expect(first.commit()).rejects.toThrow(UserError);
  first.discard();
  expect(visible(dir)).toEqual(["report.json", "sheets"]);
});

test("a part folder without an owner, or of another machine that was heard of, is left alone", async () => {
  const dir = join(temporaryFolder(), "demo");
  const part = leftPart(dir, 5);
  await expect(openOutputFolder(dir, { force: true })).rejects.toThrow(/on elsewhere/);
  rmSync(join(part, ownerFile));
  await expect(openOutputFolder(dir, { force: true })).rejects.toThrow(new RegExp(`remove ${part}`));
  expect(existsSync(join(part, "half.wav"))).toBe(true);
});

test("a copy of older results that is not as it was written is not removed", async () => {
  const root = temporaryFolder();
  const dir = join(root, "demo");
  await writeResults(dir, "now");
  mkdirSync(join(root, ".demo.splitsum-old"));
  writeFileSync(join(root, ".demo.splitsum-old", "thesis.txt"), "mine");
  await expect(openOutputFolder(dir, { force: true })).rejects.toThrow(
    /\.demo\.splitsum-old: holds what splitsum did not/,
  );
  expect(readFileSync(join(root, ".demo.splitsum-old", "thesis.txt"), "utf8")).toBe("mine");
});

test("results that a kill between two renames left under another name come back", async () => {
  const root = temporaryFolder();
  const dir = join(root, "demo");
  mkdirSync(join(root, ".demo.splitsum-old"));
  writeFileSync(join(root, ".demo.splitsum-old", "report.json"), "old");
  await expect(openOutputFolder(dir, { force: false })).rejects.toThrow(/already holds 1 file/);
  expect(readFileSync(join(dir, "report.json"), "utf8")).toBe("old");
  expect(readdirSync(root)).toEqual(["demo"]);
});

/** The folder above is not to be changed by this account, as on a volume that somebody else looks after. */
test("an empty folder that cannot be renamed is written into, and what is in it is replaced not at all", () => {
  const root = temporaryFolder();
  const dir = join(root, "mine");
  mkdirSync(dir);
  // Root may do anything: there, another account is taken (65534 is nobody on Linux).
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) chownSync(dir, 65_534, 65_534);
  const program = join(temporaryFolder(), "program.mjs");
  const entry = fileURLToPath(new URL("writingOnce.ts", import.meta.url));
  buildSync({ entryPoints: [entry], outfile: program, bundle: true, platform: "node", format: "esm" });
  const write = (...words: string[]) =>
    spawnSync(process.execPath, [program, dir, ...words], {
      encoding: "utf8",
      ...(isRoot ? { uid: 65_534, gid: 65_534 } : {}),
    });
  chmodSync(join(program, ".."), 0o755);
  chmodSync(root, 0o555);
  try {
    expect(write()).toMatchObject({ status: 0, stderr: "" });
    expect(readdirSync(dir).sort()).toEqual([".splitsum.json", "a.wav", "sheets"]);
    expect(readFileSync(join(dir, "sheets", "parallel.txt"), "utf8")).toBe("a sheet");
    const again = write("--force");
    expect(again.status).toBe(2);
    expect(again.stderr).toMatch(
      /mine: already holds 2 files, and cannot be replaced where it stands\. Empty it/,
    );
  } finally {
    chmodSync(root, 0o755);
  }
});
