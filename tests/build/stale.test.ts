import { mkdirSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { temporaryFolder } from "../temporaryFolder.js";

const ofTheBuild: string = "../../src/build/stale.mjs";
const { isStale, stampOf, stateOf } = await import(/* @vite-ignore */ ofTheBuild);

test("a build is stale once a source is changed, made or removed, and not because it is dated in the future", () => {
  const root = `${temporaryFolder()}/`;
  mkdirSync(join(root, "src", "deep"), { recursive: true });
  mkdirSync(join(root, "dist"));
  const source = join(root, "src", "deep", "a.ts");
  writeFileSync(source, "export {};");
  const tomorrow = new Date(Date.now() + 86_400_000);
  utimesSync(source, tomorrow, tomorrow);
  expect(isStale(root)).toBe(true);
  const build = () => writeFileSync(stampOf(root), stateOf(root));
  build();
  expect(isStale(root)).toBe(false);
  writeFileSync(source, "export const a = 1;");
  expect(isStale(root)).toBe(true);
  build();
  const other = join(root, "src", "b.ts");
  writeFileSync(other, "");
  expect(isStale(root)).toBe(true);
  build();
  rmSync(other);
  expect(isStale(root)).toBe(true);
});
