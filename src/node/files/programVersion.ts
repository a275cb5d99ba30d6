import { readFileSync } from "node:fs";

/** The version in the program's own package.json. */
export function programVersion(): string {
  const text = readFileSync(new URL("../../../package.json", import.meta.url), "utf8");
  const found: unknown = JSON.parse(text);
  const known = typeof found === "object" && found !== null && "version" in found;
  return known ? String(found.version) : "unknown";
}
