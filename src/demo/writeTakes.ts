import { fileURLToPath } from "node:url";
import { writeClip } from "../node/audio/writeClip.js";
import { demoTakes, makeDemoTake } from "./demoTake.js";

/** Run by itself after a build: writes the demo takes into `fixtures/takes` again. A test holds them to the synthesis. */
for (const name of demoTakes) {
  const file = fileURLToPath(new URL(`../../fixtures/takes/${name}.wav`, import.meta.url));
  writeClip(file, makeDemoTake(name), { bits: 24, force: true });
  process.stdout.write(`${file}\n`);
}
