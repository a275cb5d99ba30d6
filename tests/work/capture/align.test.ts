import { describe, expect, test } from "vitest";
import { UserError } from "../../../src/text/userError.js";
import { align } from "../../../src/work/capture/align.js";
import { expectWithin } from "../../within.js";
import { guitar, guitarNames } from "./guitars.js";
import { decayingNoise, type Loop, playThrough } from "./simulatedLoop.js";

const rateHz = 44_100;
const rmsDbfs = (signal: Float32Array) =>
  10 * Math.log10(signal.reduce((sum, x) => sum + x * x, 0) / signal.length);

async function looped(name: (typeof guitarNames)[number], loop: Loop, noiseDb?: number) {
  const dry = await guitar(name);
  const level = rmsDbfs(dry.channels[0]) + (loop.gainDb ?? 0);
  const noiseDbfs = noiseDb === undefined ? {} : { noiseDbfs: level + noiseDb };
  return { dry, loop: playThrough(dry.channels[0], { ...loop, ...noiseDbfs }, rateHz) };
}

/** The four CC0 guitar recordings as dry takes. Bounds: 1/100 frame, room noise 20 dB below the loop. */
describe.each(guitarNames)("%s", (name) => {
  test.each<[string, Loop, number | undefined, number]>([
    ["a loop without noise", { latencyFrames: 137.3, gainDb: -4, inverts: true }, undefined, 0.001],
    ["noise 20 dB below", { latencyFrames: 137.3, gainDb: -4, inverts: true, seed: 11 }, -20, 0.01],
    ["noise 20 dB below, right way up", { latencyFrames: 2210.64, gainDb: 2, seed: 12 }, -20, 0.01],
  ])("%s", async (_name, loop, noiseDb, toleranceFrames) => {
    const clips = await looped(name, loop, noiseDb);
    const found = align(clips.dry, clips.loop);
    expectWithin(found.latencyFrames, loop.latencyFrames ?? 0, toleranceFrames, "frames");
    expectWithin(found.latencyMs, ((loop.latencyFrames ?? 0) * 1000) / rateHz, 0.001, "ms");
    expect(found.invertsPolarity).toBe(loop.inverts ?? false);
    expectWithin(found.gainDb, loop.gainDb ?? 0, 0.05, "dB");
    expect(found.confidence).toBeGreaterThan(0.9);
    expect(found.spectralMatchDb).toBeLessThan(0.1);
    expect(found.rigLines[0]).toBe(`latencyMs: ${found.latencyMs.toFixed(4)}`);
    expect(found.rigLines[1]).toBe(`invertsPolarity: ${found.invertsPolarity}`);
  });
  test("another take is not taken for its loop", async () => {
    const dry = await guitar(name);
    for (const other of guitarNames.filter((word) => word !== name)) {
      const take = await guitar(other);
      expect(() => align(dry, take)).toThrow(/does not follow the dry take.*this very take/);
    }
  });
});

test("a filter in the loop: told by the spectral match", async () => {
  const pole = Math.exp((-2 * Math.PI * 1000) / rateHz);
  const response = Float64Array.from({ length: 500 }, (_, n) => (1 - pole) * pole ** n);
  const clips = await looped("guit_em9", { response, latencyFrames: 40 }, -30);
  const found = align(clips.dry, clips.loop);
  expect(found.spectralMatchDb).toBeGreaterThan(0.7);
  expect(found.confidence).toBeGreaterThan(0.5);
});

test("a drier mix beats its reverb; a fully wet unit cannot be aligned, and is told so", async () => {
  const wet = decayingNoise({ t60Seconds: 1.5, rateHz, lengthSeconds: 1.5, seed: 3 });
  const both = wet.map((x) => 0.3 * x);
  both[0] = 1;
  const mixed = await looped("guit_e_fifths", { response: both, latencyFrames: 137.3 }, -30);
  expectWithin(align(mixed.dry, mixed.loop).latencyFrames, 137.3, 0.1, "frames");
  const drowned = await looped("guit_e_fifths", { response: wet, latencyFrames: 137.3 }, -30);
  expect(() => align(drowned.dry, drowned.loop)).toThrow(/has to be measured with the test tone/);
});

test("a loop ahead of its take is told", async () => {
  const { dry, loop } = await looped("guit_harmonics", { latencyFrames: 10 });
  const { latencyFrames, cautions } = align(loop, dry);
  expectWithin(latencyFrames, -10, 0.01, "frames");
  expect(cautions.join()).toMatch(/ahead of the dry take/);
});

test("stereo loops: the mean of both, or the side that is named", async () => {
  const { dry, loop } = await looped("guit_em9", { latencyFrames: 30, gainDb: -6 });
  const [left] = loop.channels;
  const right = left.map((x) => -0.9 * x);
  const stereo = { rateHz, channels: [left, right] };
  expectWithin(align(dry, stereo, { channel: "left" }).gainDb, -6, 0.01, "dB");
  expect(align(dry, stereo, { channel: "right" }).invertsPolarity).toBe(true);
  const cancelling = { rateHz, channels: [left, left.map((x) => -x)] };
  expect(() => align(dry, cancelling)).toThrow(/sides cancel/);
  const halfDead = { rateHz, channels: [left, new Float32Array(left.length)] };
  expect(() => align(dry, halfDead)).toThrow(/right side is dead.*--channel left/);
});

test("clips that cannot be used", async () => {
  const { dry, loop } = await looped("guit_em9", { latencyFrames: 30 });
  const [take] = dry.channels;
  const fails = (a: typeof dry, b: typeof dry, words: RegExp) => {
    expect(() => align(a, b)).toThrow(UserError);
    expect(() => align(a, b)).toThrow(words);
  };
  fails(dry, { ...loop, rateHz: 48_000 }, /loop is at 48000 Hz, the dry take at 44100 Hz/);
  fails({ rateHz, channels: [take.slice(0, 10_000)] }, loop, /dry take is too short: 0.23 s/);
  fails(dry, { rateHz, channels: [new Float32Array(50_000)] }, /looped recording holds no sound/);
  const clipped = take.map((x) => Math.max(-1, Math.min(1, 20 * x)));
  fails(dry, { rateHz, channels: [clipped] }, /looped recording is clipped/);
});
