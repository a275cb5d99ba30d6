import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { mostRigBytes, readRig } from "../../../src/node/rig/readRig.js";
import { goodRig } from "../../rig/file/faultsOf.js";
import { temporaryFolder } from "../../temporaryFolder.js";

async function faultOf(content: Uint8Array | string): Promise<string> {
  const file = join(temporaryFolder(), "rig.yaml");
  writeFileSync(file, content);
  const fault = await readRig(file).then(
    () => "",
    (error: Error) => error.message,
  );
  return fault.replace(file, "rig.yaml");
}

test("a rig is read, with a byte order mark or without", async () => {
  expect(await faultOf(goodRig())).toBe("");
  expect(await faultOf(`\ufeff${goodRig()}`)).toBe("");
});

test.each([
  ["zeros in it", Buffer.from("name: a\0b"), "rig.yaml: is not text;"],
  ["UTF-16", Buffer.from(`\ufeff${goodRig()}`, "utf16le"), "rig.yaml: is text in UTF-16;"],
  [
    "Latin-1",
    Buffer.from(`${goodRig()}currency: "\xa4"\n`, "latin1"),
    "rig.yaml:5: holds bytes that are not UTF-8.",
  ],
  ["nothing", "", "rig.yaml: is empty;"],
])("%s", async (_what, content, start) => {
  expect((await faultOf(content)).slice(0, start.length)).toBe(start);
});

test("a file of more than 1 MB is no rig; one of 1 MB is read", async () => {
  const filler = (bytes: number) => `${goodRig()}#${"x".repeat(bytes - goodRig().length - 1)}`;
  expect(await faultOf(filler(mostRigBytes))).toBe("");
  expect(await faultOf(filler(mostRigBytes + 1))).toMatch(/^rig\.yaml: is larger than 1 MB;/);
});

test("what is not there, or is a folder, is told as such", async () => {
  const folder = temporaryFolder();
  mkdirSync(join(folder, "rig"));
  await expect(readRig(join(folder, "none.yaml"))).rejects.toThrow(/none\.yaml: there is no such file/);
  await expect(readRig(join(folder, "rig"))).rejects.toThrow(/rig: is a folder/);
});
