import { describe, expect, test } from "vitest";
import { makeTone } from "../../../src/work/capture/makeTone.js";
import { responseOf } from "../../../src/work/capture/responseOf.js";
import type { ToneSettings } from "../../../src/work/capture/toneSettings.js";
import { wetOf } from "../../rig/pedals/runPedal.js";
import { impulse } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { decayingNoise, errorInBandDb, type Loop, playThrough } from "./simulatedLoop.js";

/**
 * Round trips: a known response goes through a simulated loop (latency, gain, polarity, drift, noise, early recorder),
 * and has to come back. Bounds from the project's own brief: in-band error below -60 dB, latency within 0.01 frames,
 * T30 within 2 %. The loop is simulated by other means than the measurement uses.
 */
const rateHz = 48_000;
const usual = { lengthSeconds: 1.2, gapSeconds: 0.8, leadInSeconds: 0.3 };

function roundTrip(loop: Loop, tone: Partial<ToneSettings> = usual) {
  const { clip } = makeTone(tone);
  const recording = playThrough(clip.channels[0], { lateFrames: 4800, ...loop }, clip.rateHz);
  const result = responseOf(recording, tone);
  const { latencyFrames = 0, earlyFrames = 0, driftPpm = 0, gainDb = 0, inverts = false } = loop;
  const trueLatency = earlyFrames / (1 + driftPpm * 1e-6) + latencyFrames;
  const errorDb = errorInBandDb(
    { response: result.response.channels[0], startFrames: result.startFrames },
    {
      response: loop.response ?? [1],
      latencyFrames: trueLatency,
      gain: 10 ** (gainDb / 20) * (inverts ? -1 : 1),
    },
    clip.rateHz,
    result.bandHz,
  );
  return { ...result, facts: result.channels[0], errorDb, trueLatency };
}

const tail = decayingNoise({ t60Seconds: 0.6, rateHz, lengthSeconds: 0.8, seed: 3 });

describe("a cable", () => {
  test.each<[string, Loop, Partial<ToneSettings>]>([
    ["as it is", {}, usual],
    ["late by a fraction, turned over, softer", { latencyFrames: 37.3, gainDb: -6, inverts: true }, usual],
    ["drift of 50 ppm", { latencyFrames: 37.3, driftPpm: 50 }, usual],
    ["drift of -50 ppm, one sweep", { latencyFrames: 5.25, driftPpm: -50 }, { ...usual, repeats: 1 }],
    ["recorder 1.1 s early", { latencyFrames: 61.7, earlyFrames: 52_800, driftPpm: 50 }, usual],
    ["44.1 kHz", { latencyFrames: 20.1, driftPpm: 50 }, { ...usual, rateHz: 44_100 }],
    ["96 kHz", { latencyFrames: 40.6, driftPpm: 50 }, { ...usual, rateHz: 96_000 }],
  ])("%s", (_name, loop, tone) => {
    const { errorDb, facts, driftPpm, startFrames, trueLatency, standsForUnit } = roundTrip(loop, tone);
    expect(errorDb).toBeLessThan(-60);
    expectWithin(driftPpm, loop.driftPpm ?? 0, 0.01, "ppm");
    if (!loop.earlyFrames) expectWithin(facts.latencyFrames, trueLatency, 0.01, "frames");
    else {
      expect(facts.latencyFrames).toBeNull();
      expectWithin(startFrames + facts.onsetFrames, trueLatency, 0.01, "frames");
    }
    expect(facts.invertsPolarity).toBe(loop.inverts ?? false);
    expectWithin(facts.gainDb, loop.gainDb ?? 0, 0.01, "dB");
    expect(facts.within3Db.endsWithTone).toEqual({ low: true, high: true });
    expect(facts.t30Seconds).toBeNull();
    expectWithin(facts.dryLeak?.levelDb ?? null, loop.gainDb ?? 0, 0.01, "dB");
    expect(facts.dryLeak?.toWetDb).toBeNull();
    expect(standsForUnit).toBe(true);
  });
});

describe("a tail of noise under an exponential", () => {
  test.each<[string, Loop, Partial<ToneSettings>]>([
    ["as it is", { latencyFrames: 37.3 }, usual],
    ["drift, one sweep", { latencyFrames: 37.3, driftPpm: -50 }, { ...usual, repeats: 1 }],
    ["drift, turned over, louder", { latencyFrames: 80, driftPpm: 50, gainDb: 3, inverts: true }, usual],
  ])("%s", (_name, loop, tone) => {
    const { errorDb, facts, driftPpm } = roundTrip({ response: tail, ...loop }, tone);
    expect(errorDb).toBeLessThan(-60);
    expectWithin(driftPpm, loop.driftPpm ?? 0, 0.01, "ppm");
    expectWithin((facts.t30Seconds ?? 0) / 0.6, 1, 0.02);
    expectWithin((facts.t20Seconds ?? 0) / 0.6, 1, 0.03);
    expect(facts.dryLeak).toBeNull();
  });

  test("under noise 50 dB below the sweep: decay holds, and nothing is made of the noise", () => {
    const { facts, statements, response, standsForUnit } = roundTrip({
      response: tail,
      driftPpm: 50,
      noiseDbfs: -65,
    });
    expectWithin((facts.t30Seconds ?? 0) / 0.6, 1, 0.02);
    expectWithin(facts.noiseFloorDbfs, -65, 0.3, "dBFS");
    expect(facts.distortionDb).toBeNull();
    expect(standsForUnit).toBe(true);
    expect(statements.join()).not.toMatch(/noisy|moves|driven|tail still sounds|differently/);
    expect(response.channels[0].length).toBeLessThan(0.7 * rateHz);
  });

  test("longer than the gap: said", () => {
    const long = decayingNoise({ t60Seconds: 3, rateHz, lengthSeconds: 3, seed: 4 });
    expect(roundTrip({ response: long }).statements.join()).toMatch(/tail still sounds.*longer gapSeconds/);
  });
});

/** A dry spike ahead of a tail, both of known energy: leak to wet is their ratio. */
test("dry leak: a spike at -10 dB, 20 ms ahead of a tail of energy 1", () => {
  const response = new Float64Array(tail.length + 960);
  response.set(tail, 960);
  response[0] = 10 ** (-10 / 20);
  const { facts } = roundTrip({ response, latencyFrames: 12 });
  expectWithin(facts.latencyFrames, 12, 0.05, "frames");
  expectWithin(facts.dryLeak?.levelDb ?? null, -10, 0.3, "dB");
  expectWithin(facts.dryLeak?.toWetDb ?? null, -10, 0.3, "dB");
});

describe("the project's own reverbs come back", () => {
  test.each([
    ["plate", { excursionMs: 0, decaySeconds: 0.5 }],
    ["spring", { decaySeconds: 0.5 }],
  ])("%s", (model, settings) => {
    const frames = Math.round(1.2 * rateHz);
    const response = wetOf({ model, settings, input: [impulse(frames)], rateHz })[0];
    const { errorDb, facts } = roundTrip(
      { response, latencyFrames: 30.5, driftPpm: 50 },
      { ...usual, gapSeconds: 1.5 },
    );
    expect(errorDb).toBeLessThan(-60);
    expect(facts.t30Seconds).not.toBeNull();
  });
});

test("stereo: both sides keep their distance and their levels", () => {
  const { clip } = makeTone(usual);
  const [left] = playThrough(clip.channels[0], { latencyFrames: 20, lateFrames: 4800 }, rateHz).channels;
  const [right] = playThrough(
    clip.channels[0],
    { latencyFrames: 45, gainDb: -6, lateFrames: 4775 },
    rateHz,
  ).channels;
  const { response, channels, startFrames } = responseOf({ rateHz, channels: [left, right] }, usual);
  expect(channels.map((facts) => facts.channel)).toEqual(["left", "right"]);
  expectWithin(channels[0].latencyFrames, 20, 0.01, "frames");
  expectWithin(channels[1].latencyFrames, 45, 0.01, "frames");
  for (const [n, latencyFrames, gain] of [
    [0, 20, 1],
    [1, 45, 10 ** (-6 / 20)],
  ]) {
    const measured = { response: response.channels[n], startFrames };
    expect(
      errorInBandDb(measured, { response: [1], latencyFrames, gain }, rateHz, [30, 19_000]),
    ).toBeLessThan(-60);
  }
});

/** The interface's own delay and colour are on both sides; what is left is the unit's. */
test("a plain cable on the other side is taken out: latency and response are the unit's alone", () => {
  const { clip } = makeTone(usual);
  const pole = Math.exp((-2 * Math.PI * 9000) / rateHz);
  const colour = Float64Array.from({ length: 300 }, (_, n) => (1 - pole) * pole ** n);
  const cable = { latencyFrames: 311.4, driftPpm: 50, earlyFrames: 20_000, lateFrames: 4800 };
  const [reference] = playThrough(clip.channels[0], { ...cable, response: colour }, rateHz).channels;
  const inLoop = playThrough(clip.channels[0], { response: colour, lateFrames: 4800 }, rateHz).channels[0];
  const late = { ...cable, latencyFrames: 311.4 + 72.25, lateFrames: 0 };
  const [unit] = playThrough(inLoop, { ...late, response: tail, inverts: true }, rateHz).channels;
  const frames = Math.min(unit.length, reference.length);
  const recording = { rateHz, channels: [unit.subarray(0, frames), reference.subarray(0, frames)] };
  const { response, startFrames, channels, latencyAgainst } = responseOf(recording, usual, {
    referenceChannel: "right",
  });
  expect(latencyAgainst).toBe("reference");
  expect(channels).toHaveLength(1);
  const measured = { response: response.channels[0], startFrames };
  const truth = { response: tail, latencyFrames: 72.25, gain: -1 };
  expect(errorInBandDb(measured, truth, rateHz, [60, 18_000])).toBeLessThan(-60);
});

describe("units that no response can stand for", () => {
  const { clip } = makeTone(usual);
  const [sound] = clip.channels;
  const judge = (channel: Float32Array) => responseOf({ rateHz, channels: [channel] }, usual);

  test("modulated: a tremolo, and a chorus made of a swinging delay", () => {
    const tremolo = sound.map((x, n) => x * (0.7 + 0.3 * Math.sin((2 * Math.PI * 3.3 * n) / rateHz)));
    const chorus = sound.map((x, n) => {
      const at = n - 300 - 100 * Math.sin((2 * Math.PI * 0.9 * n) / rateHz);
      const whole = Math.floor(at);
      const late = (sound[whole] ?? 0) * (whole + 1 - at) + (sound[whole + 1] ?? 0) * (at - whole);
      return 0.5 * x + 0.5 * late;
    });
    for (const channel of [tremolo, chorus]) {
      const { standsForUnit, statements } = judge(channel);
      expect(standsForUnit).toBe(false);
      expect(statements.join()).toMatch(/the unit moves/);
    }
  });

  test("driven", () => {
    const { standsForUnit, statements } = judge(sound.map((x) => 0.5 * Math.tanh(8 * x)));
    expect(standsForUnit).toBe(false);
    expect(statements.join()).toMatch(/the unit is driven/);
  });

  test("a compressor, and a gate on a tail", () => {
    let level = 0;
    const compressed = sound.map((x) => {
      level = Math.max(Math.abs(x), level * 0.9995);
      return (0.3 * x) / (0.05 + level);
    });
    level = 0;
    const wet = playThrough(sound, { response: tail, lateFrames: 4800 }, rateHz).channels[0];
    const gated = wet.map((x) => {
      level = Math.max(Math.abs(x), level * 0.9995);
      return level > 0.02 ? x : 0;
    });
    for (const channel of [compressed, gated]) {
      const { standsForUnit, statements } = judge(channel);
      expect(standsForUnit).toBe(false);
      expect(statements.join()).toMatch(/loud and soft differently|gates its tail/);
    }
  });
});
