import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeWhole } from "../../../src/node/files/wholeFile.js";
import { temporaryFolder } from "../../temporaryFolder.js";

test("writes text and bytes, and leaves nothing else behind", () => {
  const folder = temporaryFolder();
  writeWhole(join(folder, "a.txt"), "take\n", { force: false });
  writeWhole(join(folder, "b.bin"), Uint8Array.of(0, 255, 1), { force: false });
  expect(readFileSync(join(folder, "a.txt"), "utf8")).toBe("take\n");
  expect([...readFileSync(join(folder, "b.bin"))]).toEqual([0, 255, 1]);
  expect(readdirSync(folder)).toEqual(["a.txt", "b.bin"]);
});

test("an existing file stays as it is without force, and is replaced with it", () => {
  const file = join(temporaryFolder(), "rig.yaml");
  writeFileSync(file, "mine");
  expect(() => writeWhole(file, "theirs", { force: false })).toThrow(
    `${file}: exists already. Name another file, or use --force to replace it; nothing was written.`,
  );
  expect(readFileSync(file, "utf8")).toBe("mine");
  writeWhole(file, "theirs", { force: true });
  expect(readFileSync(file, "utf8")).toBe("theirs");
});

test("a folder is never replaced by a file", () => {
  const folder = temporaryFolder();
  mkdirSync(join(folder, "renders"));
  expect(() => writeWhole(join(folder, "renders"), "x", { force: true })).toThrow(/is a folder/);
});

test("a folder that is not there, or is a file, is told in words", () => {
  const folder = temporaryFolder();
  expect(() => writeWhole(join(folder, "no", "a.txt"), "x", { force: false })).toThrow(
    /no such file or folder/,
  );
  writeFileSync(join(folder, "file"), "");
  expect(() => writeWhole(join(folder, "file", "a.txt"), "x", { force: false })).toThrow(
    /a file, not a folder/,
  );
});

test("content that cannot be written leaves neither a file nor a half one", () => {
  const folder = temporaryFolder();
  const broken = new Proxy(new Uint8Array(4), {
    get: () => {
      throw new Error("no bytes");
    },
  });
  expect(() => writeWhole(join(folder, "a.bin"), broken, { force: false })).toThrow();
  expect(existsSync(join(folder, "a.bin"))).toBe(false);
  expect(readdirSync(folder)).toEqual([]);
});

/** Names were made of the process's number before: a kill left one that a later process of that number met. */
test("what a killed program left beside a file does not stand in the way", () => {
  const folder = temporaryFolder();
  for (let n = 0; n < 9; n++) writeFileSync(join(folder, `.splitsum-${process.pid}-${n}.part`), "half");
  writeWhole(join(folder, "a.txt"), "take\n", { force: false });
  expect(readFileSync(join(folder, "a.txt"), "utf8")).toBe("take\n");
});
