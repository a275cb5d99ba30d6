import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Report } from "../../work/compare/report.js";
import { clearAtEnd } from "../files/clearAtEnd.js";
import { fileFault } from "../files/fileFault.js";
import { openOutputFolder } from "../files/outputFolder.js";
import { compareInto } from "./compare.js";
import type { Comparison } from "./compareOptions.js";

/**
 * A comparison of which only the report is wanted. Renders lie in the system's folder for passing files (TMPDIR) until it
 * is done.
 * @throws as `compare` does
 */
export async function compareUnwritten(options: Comparison): Promise<Report> {
  let clear = () => {};
  try {
    return await compareInto({ ...options, writes: "nothing" }, () => {
      const folder = passingFolder();
      const remove = () => rmSync(folder, { recursive: true, force: true });
      const cleared = clearAtEnd(remove);
      clear = () => {
        remove();
        cleared();
      };
      return openOutputFolder(join(folder, "renders"), { force: false });
    });
  } finally {
    clear();
  }
}

function passingFolder(): string {
  try {
    return mkdtempSync(join(tmpdir(), "splitsum-"));
  } catch (error) {
    throw fileFault(error, tmpdir(), "write");
  }
}
