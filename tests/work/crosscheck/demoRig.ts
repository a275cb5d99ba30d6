import { readFileSync } from "node:fs";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import type { Rig } from "../../../src/rig/model/rig.js";

/** The rigs of the demo. */
export const demoNames = ["ferry-road", "mill-loft", "quay-piano"] as const;

/** One of them, as its file has it. */
export function demoRig(name: string): Rig {
  const file = new URL(`../../../fixtures/rigs/${name}.yaml`, import.meta.url);
  return parseRig(readFileSync(file, "utf8"), name);
}
