import { readFileSync } from "node:fs";
import { ownFile } from "./ownFile.js";

/** The version in the program's own package.json. */
export function programVersion(): string {
  const found: unknown = JSON.parse(readFileSync(ownFile("package.json"), "utf8"));
  const known = typeof found === "object" && found !== null && "version" in found;
  return known ? String(found.version) : "unknown";
}
