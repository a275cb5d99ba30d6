import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { writeDemo } from "../../src/demo/writeDemo.js";
import { temporaryFolder } from "../temporaryFolder.js";

const inRepository = (path: string) => readFileSync(new URL(`../../fixtures/${path}`, import.meta.url));

test("writes every demo rig, and beside them the takes that they name", () => {
  const dir = join(temporaryFolder(), "new", "my-rig");
  const written = writeDemo(dir, { force: false });
  expect(written).toContain(join(dir, "ferry-road.yaml"));
  expect(written).toContain(join(dir, "takes", "ferry-road.wav"));
  expect(readdirSync(dir).filter((name) => name.endsWith(".yaml"))).toHaveLength(3);
  for (const path of written.filter((name) => name.endsWith(".yaml"))) {
    const take = /^take: (\S+)/m.exec(readFileSync(path, "utf8"))?.[1] ?? "no take";
    expect(existsSync(join(dirname(path), take)), `${path}: ${take}`).toBe(true);
  }
  expect(readFileSync(join(dir, "takes", "quay-piano.wav"))).toEqual(inRepository("takes/quay-piano.wav"));
});

test("leaves what is there, all of it; force replaces only what is as it was written", () => {
  const dir = temporaryFolder();
  writeFileSync(join(dir, "ferry-road.yaml"), "mine");
  writeFileSync(join(dir, "notes.txt"), "mine");
  for (const force of [false, true]) {
    expect(() => writeDemo(dir, { force })).toThrow(
      /ferry-road\.yaml: exists already, and is not as splitsum wrote it/,
    );
    expect(readdirSync(dir)).toEqual(["ferry-road.yaml", "notes.txt"]);
  }
  rmSync(join(dir, "ferry-road.yaml"));
  writeDemo(dir, { force: false });
  expect(() => writeDemo(dir, { force: false })).toThrow(/exists already\. .*--force/);
  writeDemo(dir, { force: true });
  expect(readFileSync(join(dir, "notes.txt"), "utf8")).toBe("mine");
});

test("a folder that cannot be made is told in one line", () => {
  const file = join(temporaryFolder(), "file");
  writeFileSync(file, "");
  expect(() => writeDemo(join(file, "my-rig"), { force: false })).toThrow(/a part of this path is a file/);
});
