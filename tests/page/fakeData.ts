import { join } from "node:path";
import { readClip } from "../../src/node/audio/readClip.js";
import { readTake } from "../../src/node/audio/readTake.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { compare } from "../../src/node/compare/compare.js";
import { StereoFieldMeter } from "../../src/page/live/engine/stereoFieldMeter.js";
import type { Rig } from "../../src/rig/model/rig.js";
import { sine } from "../signals.js";
import type { FakeFacts } from "./fakeBench.js";

/**
 * What a page of this rig shows, from a real comparison of a short take in `folder`: report, fields and the
 * outline of the take. Plain JSON.
 */
export async function fakeFacts(rig: Rig, folder: string, take?: string): Promise<FakeFacts> {
  const takeFile = take ?? (await shortTake(join(folder, "take.wav")));
  const outDir = join(folder, "renders");
  const { report } = await compare({
    rig,
    rigFile: null,
    take: await readTake(takeFile, { channel: "mean", allowTruncated: false }),
    outDir,
    force: true,
    routings: null,
    reference: null,
    tailSeconds: 2,
    bits: 24,
    match: true,
    threads: 0,
  });
  const fields = await Promise.all(
    report.routings.flatMap(({ id, files }) =>
      files ? [fieldOf(join(outDir, files.stereo)).then((field) => ({ id, ...field }))] : [],
    ),
  );
  const dry = await readClip(takeFile, { allowTruncated: false });
  return { rig, report, fields, peaks: peaksOf(dry.channels[0], 500) };
}

async function fieldOf(file: string): Promise<{ size: number; cells: number[] }> {
  const { channels } = await readClip(file, { allowTruncated: false });
  const meter = new StereoFieldMeter(1);
  meter.push(channels[0], channels[1], channels[0].length);
  const { size, cells } = meter.result();
  return { size, cells: [...cells].map((cell) => Math.round(cell * 1e4) / 1e4) };
}

function peaksOf(samples: Float32Array, slices: number): number[] {
  return Array.from({ length: slices }, (_, n) => {
    const from = Math.floor((n * samples.length) / slices);
    const to = Math.floor(((n + 1) * samples.length) / slices);
    return samples.subarray(from, to).reduce((peak, x) => Math.max(peak, Math.abs(x)), 0);
  });
}

/** Three notes that die away, 2 s at 24 kHz. */
async function shortTake(file: string): Promise<string> {
  const rateHz = 24_000;
  const samples = new Float32Array(2 * rateHz);
  [196, 247, 330].forEach((frequencyHz, note) => {
    const start = Math.round(note * 0.6 * rateHz);
    const tone = sine({ frequencyHz, peakDbfs: -12, lengthSeconds: 0.8, rateHz });
    for (let n = 0; n < tone.length; n++) samples[start + n] += tone[n] * Math.exp((-4 * n) / rateHz);
  });
  await writeClip(file, { rateHz, channels: [samples] }, { bits: 24, force: true });
  return file;
}
