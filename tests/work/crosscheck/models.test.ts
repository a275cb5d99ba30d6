import { expect, test } from "vitest";
import type { Jacks } from "../../../src/rig/model/rig.js";
import { pedalModels } from "../../../src/rig/pedals/models.js";
import type { SettingValue } from "../../../src/sound/dsp/kernel.js";
import { randomValues } from "../../rig/pedals/runPedal.js";
import { pedal, rigOf } from "../../rigs.js";
import { checked } from "./rendered.js";

/**
 * Every model that standard nodes make, alone in a rig, by an independent implementation of the W3C Web Audio API.
 * Limits: both engines hand sound on in single precision, 2^-24 or -144 dB of it a step, on noise of -17 dBFS; where
 * delays swing, the place that is read is single precision as well.
 */
const [rounding, swungDelay] = [-140, -110];

type Values = Record<string, SettingValue>;
const cases: readonly (readonly [string, Jacks, Values, number])[] = [
  ["boost", "mono", { gainDb: 6 }, rounding],
  ["tone", "stereo", { bassDb: 9, trebleDb: -6 }, rounding],
  ["speaker", "mono", {}, rounding],
  ["delay", "mono", { delayMs: 100, feedback: 0, mix: 1 }, rounding],
  ["delay", "mono", { delayMs: 3, feedback: 0.9, toneHz: 4000 }, rounding],
  ["delay", "stereo", { delayMs: 100, feedback: 0.7, rightDelayRatio: 0.61 }, rounding],
  ["delay", "mono-to-stereo", { delayMs: 130, feedback: 0.6, pingPong: true }, rounding],
  ["delay", "stereo", { delayMs: 60, feedback: 0.6, pingPong: true, rightDelayRatio: 1.3 }, rounding],
  ["delay", "stereo", { delayMs: 60, feedback: 0.6, secondOutput: "inverted-wet" }, rounding],
  ["response", "mono", { file: "one" }, rounding],
  ["response", "mono-to-stereo", { file: "two", lengthSeconds: 0.05 }, rounding],
  ["response", "stereo", { file: "two", gainDb: 6 }, -130],
  ["response", "stereo", { file: "four", levelled: false }, rounding],
  ["vibrato", "mono-to-stereo", { depthMs: 1.8, lfoHz: 0.9, mix: 0.5 }, swungDelay],
  ["vibrato", "stereo", { depthMs: 0.3, lfoHz: 5, phaseDegrees: 77, secondOutput: "wet-dry" }, swungDelay],
  ["chorus", "mono-to-stereo", { voices: 3, secondOutput: "inverted-wet" }, swungDelay],
  ["chorus", "mono-to-stereo", { feedback: 0.7, delayMs: 9.07, depthMs: 7.94, mix: 0.5858 }, swungDelay],
  ["flanger", "mono-to-stereo", {}, swungDelay],
  ["flanger", "stereo", { feedback: 0.95, delayMs: 10 }, swungDelay],
  ["tremolo", "mono-to-stereo", { phaseDegrees: 30 }, rounding],
  ["tremolo", "stereo", { secondOutput: "inverted-wet", depth: 1 }, rounding],
  ["tremolo", "mono-to-stereo", { law: "equal-power", depth: 1 }, rounding],
  ["tremolo", "mono-to-stereo", { wave: "triangle", phaseDegrees: 200 }, rounding],
  // Two first-order stages against one of second order: the states part as they sweep.
  ["phaser", "mono-to-stereo", { phaseDegrees: 90 }, -90],
  ["phaser", "mono", { sweepOctaves: 0, stages: 12 }, -130],
];

test.each(cases)("%s, %s, %j", async (model, jacks, settings, limitDbfs) => {
  const [found] = await checked(rigOf([pedal("Box", model, jacks, settings)]));
  expect(found.skipped).toBe(null);
  expect(found.rmsDbfs ?? -Infinity).toBeLessThan(limitDbfs);
  expect(found.withinTarget).toBe(true);
  expect(found.pedals).toEqual([{ name: "Box", model, by: "nodes", why: null }]);
});

/** 69 313 Hz is prime: a rate nobody tuned for. */
test.each([8000, 44_100, 69_313, 96_000])("at %i Hz", async (rateHz) => {
  const rig = rigOf([
    pedal("Tone", "tone", "mono", { trebleDb: 6, trebleHz: 12_000 }),
    pedal("Swirl", "chorus", "mono-to-stereo", { voices: 2 }),
    pedal("Echo", "delay", "stereo", { delayMs: 90 }, { latencyMs: 1.23 }),
  ]);
  const [found] = await checked(rig, { rateHz, seconds: 0.25 });
  expect(found.rmsDbfs).toBeLessThan(swungDelay);
});

/** Settings anywhere between their bounds: what is compared at all is within its target. Few phasers of chance are. */
const byChance = Object.keys(pedalModels).filter(
  (model) => typeof pedalModels[model].standard !== "string" && model !== "phaser",
);
test.each(byChance)("%s, set by chance", async (model) => {
  let compared = 0;
  for (const seed of [1, 2, 3, 4]) {
    const chance = randomValues(model, seed);
    const settings = { ...chance, ...("file" in pedalModels[model].settings ? { file: "one" } : {}) };
    const [found] = await checked(rigOf([pedal("Box", model, "mono-to-stereo", settings)]), { seconds: 0.2 });
    if (found.pedals[0]?.by !== "nodes") continue;
    compared++;
    expect(found, `seed ${seed}: ${JSON.stringify(settings)}`).toMatchObject({ withinTarget: true });
  }
  expect(compared).toBeGreaterThan(0);
});
