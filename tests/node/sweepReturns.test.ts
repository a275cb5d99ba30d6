import { join } from "node:path";
import { test } from "vitest";
import { compareUnwritten } from "../../src/node/compare/compareUnwritten.js";
import { prepareSweep } from "../../src/node/sweep/prepareSweep.js";
import { sweep } from "../../src/node/sweep/sweep.js";
import { pedal, rigOf } from "../rigs.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { expectWithin } from "../within.js";

/** Fairness: a setting as the rig has it gives in a sweep what a comparison gives, open returns and all. */
test("an open return is measured for a sweep as for a comparison", async () => {
  const rateHz = 16_000;
  const samples = noise({ seed: 3, frames: rateHz, rms: 0.1 });
  const facts = {
    file: "take.wav",
    sha256: "0",
    rateHz,
    channels: 1,
    frames: rateHz,
    notices: [],
    silent: false,
  };
  const take = { ...facts, samples };
  const rig = rigOf([
    pedal("Wash", "chorus", "mono-to-stereo"),
    pedal("Tank", "spring", "mono", { mix: 0.35, decaySeconds: 1 }),
  ]);
  const routings = ["parallel", "series-mono"];
  const common = { rig, rigFile: null, take, threads: 0 };
  const compared = await compareUnwritten({
    ...common,
    routings,
    reference: null,
    tailSeconds: 2,
    bits: 24,
    match: true,
  });
  const [inLine, beside] = compared.routings.map(({ measures }) => measures!);
  expectWithin(beside.wetToDryDb, inLine.wetToDryDb!, 0.1, "dB");
  const request = {
    groups: [[{ path: "Tank.mix", values: [0.35, 0.5] }]],
    sample: null,
    seed: 1,
    routings,
    reference: null,
    tolerancePercent: null,
    draws: 1,
    tailSeconds: 2,
  };
  const wishes = { want: [], most: ["wetToDryDb"], least: [] };
  const outDir = join(temporaryFolder(), "sweep");
  const prepared = await prepareSweep({
    ...common,
    outDir,
    force: false,
    resume: false,
    request,
    wishes,
    best: 4,
    shard: null,
  });
  const { report } = await sweep(prepared);
  if (!report) throw new Error("no report");
  const found = (routing: string, mix: number) =>
    report.best.find((best) => best.routing === routing && best.settings["Tank.mix"] === mix)!.measures
      .wetToDryDb!;
  expectWithin(found("parallel", 0.35), beside.wetToDryDb!, 0.01, "dB");
  // Turned up, the return goes along as the unit's own balance does.
  expectWithin(found("parallel", 0.5), found("series-mono", 0.5), 0.2, "dB");
});
