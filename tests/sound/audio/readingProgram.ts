import { readTake } from "../../../src/node/audio/readTake.js";
import { UserError } from "../../../src/text/userError.js";

/** Run as a program of its own, where no optional package is installed: reads the takes that it is given. */
for (const file of process.argv.slice(2)) {
  try {
    const { frames } = await readTake(file, { channel: "mean", allowTruncated: false });
    process.stdout.write(`${frames} frames\n`);
  } catch (error) {
    process.stdout.write(error instanceof UserError ? `${error.message}\n` : String(error));
  }
}
