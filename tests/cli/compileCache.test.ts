import { readdirSync, writeFileSync } from "node:fs";
import module from "node:module";
import { join } from "node:path";
import { expect, test } from "vitest";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

const hasCache = module.enableCompileCache !== undefined;

test("compiled code goes into Node's own folder for passing files, where Node keeps any", async () => {
  const TMPDIR = temporaryFolder();
  const { status, err } = await run(["--version"], { env: { TMPDIR, NODE_COMPILE_CACHE: "" } });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(readdirSync(TMPDIR)).toEqual(hasCache ? ["node-compile-cache"] : []);
});

test.each(["none", "file"])("a folder for passing files that is %s is no matter", async (what) => {
  const TMPDIR = join(temporaryFolder(), "passing");
  if (what === "file") writeFileSync(TMPDIR, "");
  const { status, out, err } = await run(["--version"], { env: { TMPDIR } });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out).toMatch(/^\d+\.\d+\.\d+\n$/);
});

test("a cache that cannot be written is no matter", async () => {
  const TMPDIR = temporaryFolder();
  // A file is in the way.
  writeFileSync(join(TMPDIR, "node-compile-cache"), "");
  const { status, err } = await run(["--version"], { env: { TMPDIR } });
  expect({ status, err }).toEqual({ status: 0, err: "" });
});
