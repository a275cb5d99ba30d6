import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openOutputFolder } from "../../../src/node/files/outputFolder.js";
import { UserError } from "../../../src/text/userError.js";

/** Run as a program of its own: writes results into the folder that it is told. */
try {
  const output = await openOutputFolder(process.argv[2], { force: process.argv[3] === "--force" });
  writeFileSync(join(output.folder, "a.wav"), "sound");
  mkdirSync(join(output.folder, "sheets"));
  writeFileSync(join(output.folder, "sheets", "parallel.txt"), "a sheet");
  await output.commit();
} catch (error) {
  if (!(error instanceof UserError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = error.exitStatus;
}
