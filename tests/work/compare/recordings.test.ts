import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readClip } from "../../../src/node/audio/readClip.js";
import { readTake } from "../../../src/node/audio/readTake.js";
import { compare } from "../../../src/node/compare/compare.js";
import { readRig } from "../../../src/node/rig/readRig.js";
import { routingIds } from "../../../src/rig/routings/routing.js";
import type { Take } from "../../../src/sound/audio/take.js";
import { monoOf } from "../../../src/sound/audio/takeSource.js";
import { dbToGain } from "../../../src/sound/dsp/units.js";
import { measureClip } from "../../../src/sound/measure/stereoMeter.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { expectWithin } from "../../within.js";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const scratch = temporaryFolder();

/** Demo rigs, and CC0 guitar recordings of the npm package supersonic-scsynth-samples. */
const pairs = [
  ["ferry-road", "guit_em9"],
  ["ferry-road", "guit_harmonics"],
  ["quay-piano", "guit_e_fifths"],
  ["mill-loft", "guit_e_slide"],
];

async function firstSeconds(name: string, seconds: number): Promise<Take> {
  const file = join(root, "node_modules/supersonic-scsynth-samples/samples", `${name}.flac`);
  const take = await readTake(file, { channel: "mean", allowTruncated: false });
  const samples = monoOf(take.samples).slice(0, Math.round(seconds * take.rateHz));
  return { ...take, samples, frames: samples.length };
}

const common = {
  force: false,
  routings: null,
  reference: null,
  tailSeconds: 4,
  bits: 24,
  match: true,
  threads: 0,
} as const;

test.each(pairs)("rig %s on %s: matched, measured, whole", async (name, recording) => {
  const rigFile = join(root, "fixtures/rigs", `${name}.yaml`);
  const rig = await readRig(rigFile);
  const outDir = join(scratch, `${name}-${recording}`);
  const take = await firstSeconds(recording, 4);
  const { report } = await compare({ ...common, rig, rigFile, take, outDir });

  const possible = report.routings.filter((routing) => routing.possible);
  expect(possible.length).toBeGreaterThanOrEqual(routingIds.length);
  const byId = Object.fromEntries(possible.map(({ id, measures }) => [id, measures]));
  expectWithin(byId["series-mono"]?.correlation ?? null, 1, 1e-12);
  expect(byId.summed?.sideShare).toBe(0);
  expect(byId["unit-first"]?.widthKept).toBeGreaterThan(0.3);
  expect(byId["dual-mono"]?.widthKept).toBeGreaterThan(0.3);
  expect(byId.parallel?.widthKept).toBeGreaterThan(0.2);
  expect(byId["stereo-unit"]?.widthKept).toBe(1);

  for (const { id, files } of possible.filter(({ id }) => id === "unit-first" || id === "parallel")) {
    const stereo = await readClip(join(outDir, files?.stereo ?? ""), { allowTruncated: false });
    const mono = await readClip(join(outDir, files?.mono ?? ""), { allowTruncated: false });
    const { integratedLufs, truePeakDbtp } = measureClip(stereo);
    expectWithin(integratedLufs, report.matching.targetLufs ?? 0, 0.1, "LUFS");
    expect(truePeakDbtp, id).toBeLessThanOrEqual(report.matching.truePeakLimitDbtp + 0.001);
    const [left, right] = stereo.channels;
    const worst = mono.channels[0].reduce(
      (most, m, n) => Math.max(most, Math.abs(m - (left[n] + right[n]) / 2)),
      0,
    );
    expect(worst).toBeLessThanOrEqual(2 ** -23);
  }
  expect(JSON.parse(readFileSync(join(outDir, "report.json"), "utf8"))).toEqual(
    JSON.parse(JSON.stringify(report)),
  );
  expect(readdirSync(outDir).filter((file) => file.endsWith(".wav"))).toHaveLength(2 * possible.length + 1);
});

test("without matching, all files share one gain, and levels differ as wired", async () => {
  const rigFile = join(root, "fixtures/rigs/ferry-road.yaml");
  const rig = await readRig(rigFile);
  const take = await firstSeconds("guit_em9", 2);
  const outDir = join(scratch, "as-wired");
  const { report } = await compare({
    ...common,
    rig,
    rigFile,
    take,
    outDir,
    match: false,
    routings: ["parallel", "summed"],
  });
  const gains = new Set(report.routings.map(({ matchGainDb }) => matchGainDb));
  expect(gains.size).toBe(1);
  const [parallel, summed] = await Promise.all(
    ["parallel.wav", "summed.wav"].map((file) => readClip(join(outDir, file), { allowTruncated: false })),
  );
  const peak = (x: Float32Array): number => x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  expect(peak(parallel.channels[0])).toBeGreaterThan(dbToGain(2) * peak(summed.channels[0]));
});
