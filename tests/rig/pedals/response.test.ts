import { describe, expect, test } from "vitest";
import { response, responseSettings } from "../../../src/rig/pedals/response.js";
import { defaultsOf } from "../../../src/sound/dsp/kernel.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { energyOf } from "./reverbs.js";
import { runKernel, type Sound } from "./runPedal.js";

const rateHz = 48_000;
const clip = (seed: number, frames = 900) => noise({ seed, frames, rms: 0.05 });
const [ll, lr, rl, rr] = [1, 2, 3, 4].map((seed) => clip(seed));
const left = noise({ seed: 11, frames: 9000 });
const right = noise({ seed: 12, frames: 9000 });

describe("channels of the file", () => {
  test("one serves both sides", () => {
    expectSame(wet([ll], [left], 1), [convolved(left, ll)]);
    expectSame(wet([ll], [left], 2), [convolved(left, ll), convolved(left, ll)]);
    expectSame(wet([ll], [left, right], 2), [convolved(left, ll), convolved(right, ll)]);
  });

  test("two are the left and the right output's", () => {
    expectSame(wet([ll, rr], [left], 1), [convolved(left, ll)]);
    expectSame(wet([ll, rr], [left], 2), [convolved(left, ll), convolved(left, rr)]);
    expectSame(wet([ll, rr], [left, right], 2), [convolved(left, ll), convolved(right, rr)]);
  });

  test("four are true stereo: left to left, left to right, right to left, right to right", () => {
    expectSame(wet([ll, lr, rl, rr], [left], 1), [convolved(left, ll)]);
    expectSame(wet([ll, lr, rl, rr], [left], 2), [convolved(left, ll), convolved(left, lr)]);
    expectSame(wet([ll, lr, rl, rr], [left, right], 2), [
      sum(convolved(left, ll), convolved(right, rl)),
      sum(convolved(left, lr), convolved(right, rr)),
    ]);
  });
});

test("levelled: white noise leaves as loud as it came, whatever the file's level", () => {
  const long = noise({ seed: 5, frames: 60_000, rms: 0.1 });
  for (const gain of [0.01, 1, 30]) {
    const [out] = wet([ll.map((sample) => gain * sample)], [long], 1, { levelled: true });
    expectWithin(10 * Math.log10(energyOf(out) / energyOf(long)), 0, 0.3, "dB");
  }
});

/** The docstring's law: unit energy on the mean of the outputs. Two sides of energies 4 and 1 leave with 1.6 and 0.4. */
test("levelled: two sides are scaled by one factor, to unit energy on their mean", () => {
  const click = Float32Array.of(1, ...new Float32Array(999));
  const [louder, softer] = wet([Float32Array.of(2, 0), Float32Array.of(0, 1)], [click], 2, {
    levelled: true,
  });
  expectWithin(energyOf(louder), 1.6, 1e-6);
  expectWithin(energyOf(softer), 0.4, 1e-6);
});

test("gainDb is the gain of the wet sound", () => {
  const [plain] = wet([ll], [left], 1);
  const [louder] = wet([ll], [left], 1, { gainDb: 12 });
  expectWithin(10 * Math.log10(energyOf(louder) / energyOf(plain)), 12, 1e-4, "dB");
});

test("what is longer than lengthSeconds is faded out over 10 ms, and shorter files stay as they are", () => {
  const steady = new Float32Array(rateHz).fill(0.5);
  const click = Float32Array.of(1, ...new Float32Array(9999));
  const [cut] = wet([steady], [click], 1, { lengthSeconds: 0.1 });
  expectWithin(cut[4319], 0.5, 1e-6);
  expectWithin(cut[4560], 0.25, 2e-3);
  expectWithin(cut[4799], 0, 1e-6);
  expect(Math.max(...cut.subarray(4800))).toBeLessThan(1e-6);
  const [whole] = wet([ll], [click], 1, { lengthSeconds: 30 });
  expectWithin(whole[899], ll[899], 1e-7);
});

test("a missing file is a bug, and says which", () => {
  const use = { rateHz, inputs: 1, outputs: 1, interpolation: "cubic", clips: new Map() } as const;
  const settings = { ...defaultsOf(responseSettings), file: "hall.wav" };
  expect(() => response.kernel(settings, use)).toThrow("hall.wav");
});

test("silence in the file gives silence, not NaN", () => {
  const [out] = wet([new Float32Array(500)], [left], 1, { levelled: true });
  expect(out.every((sample) => sample === 0)).toBe(true);
});

/** The wet sound with the model's own latency taken off, as the engine does. */
function wet(
  channels: Sound,
  input: Sound,
  outputs: 1 | 2,
  settings: { levelled?: boolean; gainDb?: number; lengthSeconds?: number } = {},
): Sound {
  const values = { ...defaultsOf(responseSettings), levelled: false, ...settings, file: "unit.wav" };
  const kernel = response.kernel(values, {
    rateHz,
    inputs: input.length === 2 ? 2 : 1,
    outputs,
    interpolation: "cubic",
    clips: new Map([["unit.wav", channels]]),
  });
  const latency = response.latencyFrames?.(values, rateHz) ?? 0;
  const padded = input.map((channel) => Float32Array.of(...channel, ...new Float32Array(latency)));
  return runKernel(kernel, padded, outputs, 777).map((channel) => channel.slice(latency));
}

function convolved(x: Float32Array, h: Float32Array): Float32Array {
  return x.map((_, n) => {
    let y = 0;
    for (let m = 0; m <= Math.min(n, h.length - 1); m++) y += h[m] * x[n - m];
    return y;
  });
}

const sum = (a: Float32Array, b: Float32Array): Float32Array => a.map((sample, n) => sample + b[n]);

function expectSame(actual: Sound, expected: Sound): void {
  expect(actual.length).toBe(expected.length);
  actual.forEach((channel, c) => {
    const worst = channel.reduce((most, sample, n) => Math.max(most, Math.abs(sample - expected[c][n])), 0);
    expectWithin(worst, 0, 2e-6);
  });
}
