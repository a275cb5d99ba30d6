// Writes a short FLAC file, by the program's own encoder, under each of the names given.
import { writeFileSync } from "node:fs";
import { encodeFlac } from "../../src/sound/audio/encodeFlac.ts";

const sound = Float32Array.from({ length: 9600 }, (_, n) => 0.3 * Math.sin(n / 20));
const file = await encodeFlac([sound], 48_000);
for (const name of process.argv.slice(2)) writeFileSync(name, file);
