import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import { toYaml } from "../../../src/rig/file/toYaml.js";
import { anyRig } from "./anyRig.js";
import { goodRig } from "./faultsOf.js";

const rigs = new URL("../../../fixtures/rigs/", import.meta.url);

test.each(readdirSync(rigs).filter((name) => name.endsWith(".yaml")))("%s comes back as it was", (name) => {
  const rig = parseRig(readFileSync(new URL(name, rigs), "utf8"), name);
  expect(parseRig(toYaml(rig), name)).toEqual(rig);
});

/** The law of a writer and its reader: reading what was written gives the same, to the last bit of every number. */
test("any rig comes back as it was", () => {
  fc.assert(
    fc.property(anyRig(), (rig) => {
      expect(parseRig(toYaml(rig), "rig.yaml")).toEqual(rig);
    }),
    { numRuns: 60 },
  );
});

test("words that YAML could read otherwise are written safely", () => {
  for (const name of [
    "true",
    "3",
    "~",
    "a: b",
    "# no",
    "- x",
    "'",
    '"',
    "*",
    "!x",
    "null",
    " y ",
    "0x1f",
    "1e3",
  ]) {
    const rig = { ...parseRig(goodRig(), "r"), name };
    expect(parseRig(toYaml(rig), "r").name).toBe(name);
  }
});

test("units stand in the keys, and small maps on one line", () => {
  expect(toYaml(parseRig(goodRig("", "depth: 0.5"), "r"))).toContain(
    "    settings: { lfoHz: 4, depth: 0.5, wave: sine, law: gain,",
  );
});
