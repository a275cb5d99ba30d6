// The main job on the demo rig: a 60 s take at 48 kHz, all routings, every measure, all files, from reading the take on. Run alone, as a child
// process, so that peak memory is its own. Argument: length in seconds.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readAnyTake } from "../../src/node/audio/readTake.ts";
import { openWav } from "../../src/node/audio/wavWriter.ts";
import { compare } from "../../src/node/compare/compare.ts";
import { readRig } from "../../src/node/rig/readRig.ts";
import { pluckedTake } from "./rounds.mjs";

const rateHz = 48_000;
const lengthSeconds = Number(process.argv[2] ?? 60);
const rigFile = fileURLToPath(new URL("../../fixtures/rigs/ferry-road.yaml", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "splitsum-bench-"));
const takeFile = join(folder, "take.wav");
writeTake();
const rig = await readRig(rigFile);

const options = {
  rig,
  rigFile,
  force: false,
  routings: null,
  reference: null,
  tailSeconds: 10,
  bits: 24,
  match: true,
};

const start = performance.now();
const take = await readAnyTake(takeFile, { channel: "mean", allowTruncated: false });
const { report } = await compare({ ...options, take, outDir: join(folder, "out") });
const seconds = (performance.now() - start) / 1000;
const routed = (report.frames / rateHz) * report.routings.filter(({ possible }) => possible).length;
rmSync(folder, { recursive: true });
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(
  JSON.stringify({
    lengthSeconds,
    seconds,
    routedSeconds: routed,
    routedPerSecond: routed / seconds,
    megabytes,
  }),
);
process.exit(0);

/** One minute of playing, over and over, so that memory does not come from the making. */
function writeTake() {
  const minute = pluckedTake(Math.min(60, lengthSeconds), rateHz);
  const wav = openWav(takeFile, { rateHz, channels: 1, bits: 24 });
  for (let left = lengthSeconds * rateHz; left > 0; left -= minute.length) {
    wav.write([minute], Math.min(left, minute.length), 1);
  }
  wav.close();
}
