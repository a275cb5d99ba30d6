import { describe, expect, test } from "vitest";
import { mainsHumOf } from "../../../src/work/capture/mainsHum.js";
import { makeTone } from "../../../src/work/capture/makeTone.js";
import { responseOf } from "../../../src/work/capture/responseOf.js";
import { toneLayout } from "../../../src/work/capture/toneLayout.js";
import { toneSettingsOf } from "../../../src/work/capture/toneSettings.js";
import { firstOf } from "../../longForm.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { decayingNoise, type Loop, playThrough } from "./simulatedLoop.js";

/** Faults of a recording, each put into one that is good, by hand; and good ones, of which nothing is said. */
const rateHz = 48_000;
const tone = { lengthSeconds: 2, gapSeconds: 0.6, leadInSeconds: 0.5 };
const layout = toneLayout(toneSettingsOf(tone));
const [sound] = makeTone(tone).clip.channels;
const tail = decayingNoise({ t60Seconds: 0.4, rateHz, lengthSeconds: 0.5, seed: 3 });
const recorded = (loop: Loop = {}) =>
  playThrough(
    sound,
    { response: tail, latencyFrames: 311.4, driftPpm: 38, noiseDbfs: -80, lateFrames: 9600, ...loop },
    rateHz,
  ).channels[0];
const measured = (channel: Float32Array) => responseOf({ rateHz, channels: [channel] }, tone);

const without = (x: Float32Array, at: number, count: number) =>
  Float32Array.from([...x.subarray(0, at), ...x.subarray(at + count)]);
const twice = (x: Float32Array, at: number, count: number) =>
  Float32Array.from([...x.subarray(0, at), ...x.subarray(at - count)]);
const zeroed = (x: Float32Array, at: number, count: number) => x.slice().fill(0, at, at + count);
const stuttered = (x: Float32Array, at: number, count: number) => {
  const out = x.slice();
  out.copyWithin(at, at - count, at);
  return out;
};
/** A place in a sweep of the recording, by the share of it that is over. */
const inSweep = (k: number, share: number) =>
  Math.round(311 + layout.sweepStarts[k] + share * layout.sweepFrames);

function saidOf(channel: Float32Array): string {
  try {
    return `nothing: ${measured(channel).statements.join(" ")}`;
  } catch (error) {
    return String(error);
  }
}

describe("a block that is lost or put in, and time goes on without it", () => {
  test.each<[number, number, number, Loop]>(
    firstOf<[number, number, number, Loop]>(
      [
        [0, 0.5, 512, {}],
        [1, 0.3, 256, { response: [1] }],
        [1, 0.75, 1024, {}],
        [0, 0.9, 2048, { response: [1] }],
      ],
      2,
    ),
  )("sweep %i, %f of it, %i frames", (k, share, count, loop) => {
    const at = inSweep(k, share);
    const good = recorded(loop);
    const lost = saidOf(without(good, at, count));
    const [, frames, seconds] = /lost about (\d+) frames .* at about ([\d.]+) s/.exec(lost) ?? [lost];
    expectWithin(Number(frames), count, 1, `frames: ${lost}`);
    expectWithin(Number(seconds), at / rateHz, 0.1, "s");
    const gained = saidOf(twice(good, at, count));
    const [, more] = /gained about (\d+) frames/.exec(gained) ?? [gained];
    expectWithin(Number(more), count, 1, `frames: ${gained}`);
  });
  test("in the silence between", () => {
    const at = inSweep(0, 1) + Math.round(0.55 * rateHz);
    expect(() => measured(without(recorded(), at, 512))).toThrow(/lost about 51\d frames/);
  });
});

describe("a block that is garbled in its place", () => {
  test.each([
    ["zeros", zeroed, 0, 0.4, 480],
    ["zeros", zeroed, 1, 0.7, 1024],
    ["the block before, again", stuttered, 1, 0.5, 512],
  ] as const)("%s: sweep %s", (_what, garble, k, share, count) => {
    const said = saidOf(garble(recorded(), inSweep(k, share), count));
    const [, seconds] = /disturbed for about \d+ ms at ([\d.]+) s/.exec(said) ?? [said];
    // Of two sweeps that differ, which is the wrong one is told by its energy alone.
    const off = [0, 1].map((n) => Math.abs(Number(seconds) - inSweep(n, share) / rateHz));
    expect(Math.min(...off), said).toBeLessThan(0.05);
  });
});

const humming = (mainsHz: number, dbfs: number, n: number) =>
  10 ** (dbfs / 20) *
  (Math.sin((2 * Math.PI * mainsHz * n) / rateHz) +
    0.4 * Math.sin((2 * Math.PI * 3 * mainsHz * n) / rateHz + 1));

describe("hum of the mains", () => {
  test.each([
    [50, -60],
    [60, -45],
    [50.05, -70],
  ])("%f Hz at %i dBFS", (mainsHz, dbfs) => {
    const { statements } = measured(recorded().map((x, n) => x + humming(mainsHz, dbfs, n)));
    expect(statements.join()).toContain(`hums at ${Math.round(mainsHz)} Hz and its multiples`);
  });
  /** Closed form: sines of peak A and 0.4 A have an RMS of A sqrt(1.16 / 2). */
  test("its level", () => {
    const silence = noise({ seed: 4, frames: rateHz, rms: 1e-4 }).map((x, n) => x + humming(60, -50, n));
    expectWithin(mainsHumOf(silence, rateHz)!.levelDbfs, -50 + 10 * Math.log10(1.16 / 2), 0.1, "dBFS");
  });
  test("noise of any level is none, in 40 draws", () => {
    for (let seed = 1; seed <= 40; seed++)
      expect(mainsHumOf(noise({ seed, frames: rateHz / 4, rms: 0.01 }), rateHz)).toBeNull();
  });
});

test("a limiter is told for one that holds the loud down", () => {
  let gain = 1;
  const ceiling = 0.3 * recorded().reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  const limited = recorded().map((x) => {
    gain = Math.min(1, gain + 0.2 / rateHz);
    if (Math.abs(x) * gain > ceiling) gain = ceiling / Math.abs(x);
    return gain * x;
  });
  const { standsForUnit, statements } = measured(limited);
  expect(standsForUnit).toBe(false);
  expect(statements.join()).toMatch(/holding the loud down \(compressor, limiter, drive\)/);
});

describe("good recordings give no alarm", () => {
  const alarms = /lost about|gained about|disturbed|hums|moves|differently/;
  test.each<[string, Loop]>([
    ["clean", { noiseDbfs: -110 }],
    ["noisy", { noiseDbfs: -50, seed: 7 }],
    ["noisier by a cable", { response: [1], noiseDbfs: -45, seed: 8 }],
    ["100 ppm fast", { driftPpm: 100 }],
    ["100 ppm slow", { driftPpm: -100 }],
  ])("%s", (_name, loop) => {
    const { standsForUnit, statements } = measured(recorded(loop));
    expect(statements.join()).not.toMatch(alarms);
    expect(standsForUnit).toBe(true);
  });
  test("a clock that drifts by 2 ppm while it records", () => {
    const steady = recorded({ driftPpm: 0 });
    const seconds = steady.length / rateHz;
    const drifting = steady.map((_, n) => {
      const at = n + (1e-6 * n * n) / rateHz / seconds;
      const whole = Math.floor(at);
      const part = at - whole;
      return steady[whole] * (1 - part) + (steady[whole + 1] ?? 0) * part;
    });
    expect(measured(drifting).statements.join()).not.toMatch(/lost|gained|disturbed/);
  });
});

test.each([0.4, 2.3])("a unit that moves, %f Hz, is called that and nothing else", (lfoHz) => {
  const moving = sound.map((x, n) => {
    const at = n - 300 - 100 * Math.sin((2 * Math.PI * lfoHz * n) / rateHz);
    const whole = Math.floor(at);
    return 0.5 * x + 0.5 * ((sound[whole] ?? 0) * (whole + 1 - at) + (sound[whole + 1] ?? 0) * (at - whole));
  });
  expect(measured(moving).statements.join()).toMatch(/the unit moves/);
});
