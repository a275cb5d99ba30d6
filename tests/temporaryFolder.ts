import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, onTestFinished, TestRunner } from "vitest";

/** A new empty folder that goes when the test ends; made outside of one, when the last test of its group does. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "splitsum-test-"));
  const remove = () => rmSync(folder, { recursive: true, force: true });
  if (TestRunner.getCurrentTest()) onTestFinished(remove);
  else afterAll(remove);
  return folder;
}
