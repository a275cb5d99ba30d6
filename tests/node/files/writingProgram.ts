import { join } from "node:path";
import { openWav } from "../../../src/node/audio/wavWriter.js";
import { openOutputFolder } from "../../../src/node/files/outputFolder.js";
import { UserError } from "../../../src/text/userError.js";

/** Run as a program of its own: writes sound into an output folder without end, until it is stopped or fails. */
process.on("SIGINT", () => process.exit(130));
const output = await openOutputFolder(process.argv[2], { force: false });
const file = openWav(join(output.folder, "endless.wav"), { rateHz: 48_000, channels: 1, bits: 24 });
const second = [new Float32Array(48_000)];
process.stdout.write("writing\n");
try {
  for (;;) {
    file.write(second, 48_000, 1);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
} catch (error) {
  output.discard();
  process.stderr.write(error instanceof UserError ? `${error.message}\n` : String(error));
  process.exitCode = error instanceof UserError ? error.exitStatus : 70;
}
