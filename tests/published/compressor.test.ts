import { describe, expect, test } from "vitest";
import { wetOf } from "../rig/pedals/runPedal.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;
const settings = { thresholdDb: -30, ratio: 4, kneeDb: 10, attackMs: 10, releaseMs: 200 };

/**
 * D. Giannoulis, M. Massberg and J. D. Reiss, "Digital Dynamic Range Compressor Design: A Tutorial and Analysis",
 * J. Audio Eng. Soc. 60(6), 2012: the static curve with a soft knee (eq. 4), in dB out for dB in.
 */
function staticCurve(x: number, threshold: number, ratio: number, knee: number): number {
  if (2 * (x - threshold) < -knee) return x;
  if (knee > 0 && 2 * Math.abs(x - threshold) <= knee)
    return x + ((1 / ratio - 1) * (x - threshold + knee / 2) ** 2) / (2 * knee);
  return threshold + (x - threshold) / ratio;
}

describe("static curve", () => {
  test.each([
    [4, 10],
    [1, 10],
    [20, 0],
    [2, 24],
  ])("ratio %f, knee %f dB", (ratio, kneeDb) => {
    for (const levelDb of [-60, -40, -35, -33, -30, -27.5, -25, -20, -10, 0]) {
      const values = { ...settings, ratio, kneeDb, attackMs: 0.1 };
      const [out] = wetOf({
        model: "compressor",
        settings: values,
        input: [alternating(levelDb, 0.5)],
        rateHz,
      });
      const outDb = 20 * Math.log10(Math.abs(out[out.length - 1]));
      expectWithin(outDb, staticCurve(levelDb, -30, ratio, kneeDb), 1e-4, `dB at ${levelDb} dB`);
    }
  });
});

/** One pole in dB: after a time t the gain taken off has gone 1 - exp(-t/attack) of its way, exp(-t/release) back. */
test("attack and release are time constants of the gain in dB", () => {
  const loud = alternating(-10, 1);
  const input = new Float32Array(2 * rateHz);
  input.set(loud);
  input.set(alternating(-60, 1), rateHz);
  const [out] = wetOf({ model: "compressor", settings, input: [input], rateHz });
  const takenDb = (frame: number) => -20 * Math.log10(out[frame] / input[frame]);
  const full = -10 - staticCurve(-10, -30, 4, 10);
  for (const ms of [2, 10, 30]) {
    const frames = (ms * rateHz) / 1000;
    expectWithin(takenDb(frames - 1), full * (1 - Math.exp(-ms / 10)), 1e-3, `dB after ${ms} ms`);
  }
  for (const ms of [50, 200, 500]) {
    const frames = (ms * rateHz) / 1000;
    expectWithin(takenDb(rateHz + frames - 1), full * Math.exp(-ms / 200), 1e-3, `dB ${ms} ms after`);
  }
});

/** Stereo link: both sides get the gain that the louder asks for, so their ratio stays. Common practice, no source. */
test.each([
  ["left", [-10, -50], 40],
  ["right", [-50, -10], -40],
] as const)("a loud %s takes the other side down with it", (_side, [leftDb, rightDb], apartDb) => {
  const input = [alternating(leftDb, 0.5), alternating(rightDb, 0.5)];
  const [left, right] = wetOf({ model: "compressor", settings, input, outputs: 2, rateHz });
  const last = left.length - 1;
  expectWithin(20 * Math.log10(Math.abs(left[last] / right[last])), apartDb, 1e-4, "dB");
  const softer = Math.min(Math.abs(left[last]), Math.abs(right[last]));
  expect(20 * Math.log10(softer)).toBeLessThan(-60);
});

test("make-up is plain gain", () => {
  const values = { ...settings, makeUpDb: 6 };
  const [out] = wetOf({ model: "compressor", settings: values, input: [alternating(-60, 0.1)], rateHz });
  expectWithin(20 * Math.log10(Math.abs(out[100])), -54, 1e-4, "dB");
});

/** +level, -level, ..: its size never changes, so a detector of size sees a constant. */
function alternating(levelDb: number, lengthSeconds: number): Float32Array {
  const size = 10 ** (levelDb / 20);
  return Float32Array.from({ length: lengthSeconds * rateHz }, (_, n) => (n % 2 === 0 ? size : -size));
}
