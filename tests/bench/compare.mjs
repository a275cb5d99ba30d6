// The main job on the demo rig: a 60 s take at 48 kHz, all routings, every measure, all files. Run alone, as a child
// process, so that peak memory is its own. Argument: length in seconds.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { compare } from "../../dist/compare/compare.js";
import { readRig } from "../../dist/rig/readRig.js";
import { pluckedTake } from "./rounds.mjs";

const rateHz = 48_000;
const lengthSeconds = Number(process.argv[2] ?? 60);
const rigFile = fileURLToPath(new URL("../../fixtures/rigs/ferry-road.yaml", import.meta.url));
const rig = await readRig(rigFile);
const samples = pluckedTake(lengthSeconds, rateHz);
const take = {
  file: "bench.wav",
  sha256: "",
  rateHz,
  channels: 1,
  frames: samples.length,
  samples,
  notices: [],
  silent: false,
};
const folder = mkdtempSync(join(tmpdir(), "splitsum-bench-"));
const options = {
  rig,
  rigFile,
  take,
  force: false,
  routings: null,
  reference: null,
  tailSeconds: 10,
  bits: 24,
  match: true,
};

const start = performance.now();
const { report } = await compare({ ...options, outDir: join(folder, "out") });
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
