import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Report } from "../../work/compare/report.js";
import { fileFault } from "../files/fileFault.js";
import { type CompareOptions, compare } from "./compare.js";

/**
 * A comparison of which only the report is wanted. Renders lie in the system's folder for passing files (TMPDIR) until it
 * is done.
 * @throws as `compare` does
 */
export async function compareUnwritten(options: Omit<CompareOptions, "outDir" | "force">): Promise<Report> {
  const folder = passingFolder();
  try {
    const outDir = join(folder, "renders");
    const { report } = await compare({ ...options, outDir, force: false, writes: "nothing" });
    return report;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function passingFolder(): string {
  try {
    return mkdtempSync(join(tmpdir(), "splitsum-"));
  } catch (error) {
    throw fileFault(error, tmpdir(), "write");
  }
}
