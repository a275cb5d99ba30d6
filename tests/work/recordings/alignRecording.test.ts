import { describe, expect, test } from "vitest";
import { readAt } from "../../../src/work/capture/fractionalRead.js";
import { alignRecording } from "../../../src/work/recordings/alignRecording.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { renderRig } from "../render/renders.js";

const rateHz = 16_000;
/** Noise up to 0.3 of the rate: reading between frames is exact there, so that a difference tells of the alignment. */
const samples = lowPassed(noise({ seed: 12, frames: 5 * rateHz }), 0.3);
const take = { rateHz, channels: [samples] };
const rig = rigOf([
  pedal("Swirl", "chorus", "mono-to-stereo", { mix: 0.4 }),
  pedal("Tank", "delay", "mono", { mix: 0.3, delayMs: 150 }),
]);
const [left, right] = renderRig(rig, samples, rateHz)["dual-mono"];

/** A Hann-windowed sinc of 101 taps (textbook FIR, window method). */
function lowPassed(x: Float32Array, cutoff: number): Float32Array {
  const taps = Array.from({ length: 101 }, (_, k) => {
    const t = k - 50;
    const sinc = t === 0 ? 2 * cutoff : Math.sin(2 * Math.PI * cutoff * t) / (Math.PI * t);
    return sinc * (0.5 + 0.5 * Math.cos((Math.PI * t) / 51));
  });
  return x.map((_, n) => taps.reduce((sum, tap, k) => sum + tap * (x[n - k] ?? 0), 0));
}

/** A render as a recorder gives it: late by any fraction of a frame, at another gain, over noise. */
function recorded(delayFrames: number, gain: number, { noiseRms = 1e-4 } = {}) {
  const frames = left.length + Math.max(0, Math.ceil(delayFrames));
  const channels = [left, right].map((side, n) => {
    const hiss = noise({ seed: 40 + n, frames, rms: noiseRms });
    return Float32Array.from({ length: frames }, (_, k) => gain * readAt(side, k - delayFrames) + hiss[k]);
  });
  return { rateHz, channels };
}

/** Energy of the difference to the render, dB, the ends left out. */
function residualDb(aligned: Float32Array, side: Float32Array, gain: number): number {
  let [difference, whole] = [0, 0];
  for (let n = 2000; n < side.length - 2000; n++) {
    difference += (aligned[n] / gain - side[n]) ** 2;
    whole += side[n] ** 2;
  }
  return 10 * Math.log10(difference / whole);
}

describe("a recording comes back in time with the take", () => {
  // Closed form: 0.02 frames off, noise up to 0.3 of the rate differs by 2 pi 0.3 / sqrt(3) 0.02, -33 dB.
  test.each([
    [0, 1],
    [123.45, 0.5],
    [-40.3, -0.8],
    [5 * rateHz + 0.5, 0.5],
  ])("%d frames late at a gain of %d", (delayFrames, gain) => {
    const { alignment, channels } = alignRecording(take, recorded(delayFrames, gain));
    expectWithin(alignment.latencyFrames, delayFrames, 0.02, "frames");
    expect(alignment.invertsPolarity).toBe(gain < 0);
    expect(residualDb(channels[0], left, gain)).toBeLessThan(-33);
    expect(residualDb(channels[1], right, gain)).toBeLessThan(-33);
  });
});

test("both sides are shifted alike: what is between them stays", () => {
  const late = recorded(30, 1);
  const shifted = { rateHz, channels: [late.channels[0], late.channels[1].slice(5)] };
  const channels = [shifted.channels[0].slice(0, shifted.channels[1].length), shifted.channels[1]];
  const aligned = alignRecording(take, { rateHz, channels });
  const whole = Math.round(aligned.alignment.latencyFrames);
  expect(Math.abs(whole - 28)).toBeLessThanOrEqual(3);
  const [a, b] = aligned.channels;
  expect(a).toHaveLength(b.length);
});

test("a mono recording is both sides alike", () => {
  const { channels } = alignRecording(take, { rateHz, channels: [recorded(10, 1).channels[0]] });
  expect(channels[1]).toBe(channels[0]);
});

describe("what cannot be compared is told", () => {
  test("another take", () => {
    const other = { rateHz, channels: [noise({ seed: 99, frames: 5 * rateHz })] };
    expect(() => alignRecording(take, other)).toThrow(/does not follow the dry take/);
  });
  test("a dead side", () => {
    const channels = [left, new Float32Array(left.length)];
    expect(() => alignRecording(take, { rateHz, channels })).toThrow(
      /its right side is dead\. Check the cable/,
    );
  });
  test.each([
    ["silence", new Float32Array(5 * rateHz), /no sound/],
    ["too short a piece", left.slice(0, 0.2 * rateHz), /too short/],
    ["a clipped one", left.map((x) => Math.max(-1, Math.min(1, 40 * x))), /clipped/],
  ])("%s", (_what, side, says) => {
    expect(() => alignRecording(take, { rateHz, channels: [side] })).toThrow(says);
  });
});
