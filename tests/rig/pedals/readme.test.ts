import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { pedalModels } from "../../../src/rig/pedals/models.js";

/** README's list of models against the models that there are. */
test("README names every model, and no other", () => {
  const text = readFileSync(new URL("../../../README.md", import.meta.url), "utf8");
  const list = /Models: ([^.]*)\./.exec(text)?.[1] ?? "";
  const named = list.replace(/\([^)]*\)/g, "").split(",");
  expect(named.map((word) => word.trim()).sort()).toEqual(Object.keys(pedalModels).sort());
});
