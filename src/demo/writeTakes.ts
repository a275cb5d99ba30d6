import { dirname, join } from "node:path";
import { writeClip } from "../node/audio/writeClip.js";
import { ownFile } from "../node/files/ownFile.js";
import { demoTakes, makeDemoTake } from "./demoTake.js";

/** Run by itself: writes the demo takes into `fixtures/takes` again. A test holds them to the synthesis. */
for (const name of demoTakes) {
  const file = join(dirname(ownFile("package.json")), "fixtures", "takes", `${name}.wav`);
  writeClip(file, makeDemoTake(name), { bits: 24, force: true });
  process.stdout.write(`${file}\n`);
}
