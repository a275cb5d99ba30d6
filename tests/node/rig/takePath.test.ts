import { expect, test } from "vitest";
import { takePath } from "../../../src/node/rig/takePath.js";
import { simpleRig } from "../../rigs.js";

test.each([
  ["../takes/a.wav", "my/rigs/rig.yaml", "my/takes/a.wav"],
  ["a.wav", "rig.yaml", "a.wav"],
  ["a.wav", "-", "a.wav"],
  ["/takes/a.wav", "my/rig.yaml", "/takes/a.wav"],
])("take %s of rig %s is %s", (take, rigFile, path) => {
  expect(takePath(simpleRig({ take }), rigFile)).toBe(path);
});

test("a rig without a take has no path", () => {
  expect(takePath(simpleRig(), "rig.yaml")).toBeNull();
});
