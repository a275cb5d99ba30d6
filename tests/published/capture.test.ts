import { describe, expect, test } from "vitest";
import { leakNotchesHz } from "../../src/work/capture/leakNotches.js";
import { makeTone } from "../../src/work/capture/makeTone.js";
import { responseOf } from "../../src/work/capture/responseOf.js";
import { toneLayout } from "../../src/work/capture/toneLayout.js";
import { toneSettingsOf } from "../../src/work/capture/toneSettings.js";
import { expectWithin } from "../within.js";
import { decayingNoise, type Loop, playThrough } from "../work/capture/simulatedLoop.js";

const rateHz = 48_000;

function capture(loop: Loop, given: Parameters<typeof makeTone>[0]) {
  const { clip } = makeTone(given);
  return responseOf(playThrough(clip.channels[0], { lateFrames: 4800, ...loop }, rateHz), given);
}

/**
 * Distortion by order. Farina 2000 (AES preprint 5093): order n lands L ln n ahead. Levels, closed form: a sweep of peak A
 * through y = x + a2 x^2 + a3 x^3 + a5 x^5 leaves A (1 + 3/4 a3 A^2 + 5/8 a5 A^4) of order 1, a2 A^2 / 2 of order 2,
 * a3 A^3 / 4 + 5/16 a5 A^5 of order 3 and a5 A^5 / 16 of order 5. The sweep ends where 5 f stays below half the rate.
 */
describe.each([-1, -12])("distortion, sweep at %i dBFS", (levelDbfs) => {
  const tone = { lengthSeconds: 3, gapSeconds: 0.6, leadInSeconds: 0.3, toHz: 4500, repeats: 1, levelDbfs };
  const layout = toneLayout(toneSettingsOf(tone));
  const A = 10 ** (levelDbfs / 20);
  test.each([
    ["square", 0.1, 0, 0],
    ["cube", 0, 0.3, 0],
    ["square, cube and fifth power", 0.05, 0.2, 0.1],
  ])("%s", (_name, a2, a3, a5) => {
    const curve = (x: number) => x + a2 * x ** 2 + a3 * x ** 3 + a5 * x ** 5;
    const { distortion } = capture({ curve, latencyFrames: 20 }, tone).channels[0];
    const first = 1 + 0.75 * a3 * A ** 2 + 0.625 * a5 * A ** 4;
    const expected = new Map([
      [2, (a2 * A) / 2],
      [3, (a3 * A ** 2) / 4 + (5 * a5 * A ** 4) / 16],
      [5, (a5 * A ** 4) / 16],
    ]);
    for (const { order, levelDb, aheadFrames } of distortion) {
      const share = (expected.get(order) ?? 0) / first;
      if (share === 0) {
        expect(levelDb ?? -200).toBeLessThan(-75);
        continue;
      }
      expectWithin(levelDb, 20 * Math.log10(share), 0.1, `dB, order ${order}`);
      expectWithin(aheadFrames, layout.timeConstantSeconds * Math.log(order) * rateHz, 5, "frames");
    }
  });
});

/** ISO 3382-1:2009: a straight exponential of T60 reads EDT = T20 = T30 = T60. Noise under it makes them approximate. */
test.each([0.3, 0.7])("decay of %d s", (t60Seconds) => {
  const response = decayingNoise({ t60Seconds, rateHz, lengthSeconds: 1.6 * t60Seconds, seed: 21 });
  const tone = { lengthSeconds: 1.5, gapSeconds: 1.2, leadInSeconds: 0.3 };
  const facts = capture({ response, driftPpm: 50, noiseDbfs: -75 }, tone).channels[0];
  expectWithin((facts.t30Seconds ?? 0) / t60Seconds, 1, 0.02);
  expectWithin((facts.t20Seconds ?? 0) / t60Seconds, 1, 0.03);
  expectWithin((facts.edtSeconds ?? 0) / t60Seconds, 1, 0.08);
});

/** Closed form: one pole, |H|^2 = 1 / (1 + (f/fc)^2): 3.01 dB down at fc, 10 dB at 3 fc; bilinear, so warped by tan. */
test("bandwidth of a one-pole low-pass at 2 kHz", () => {
  const warp = Math.tan((Math.PI * 2000) / rateHz);
  const pole = (1 - warp) / (1 + warp);
  const gain = warp / (1 + warp);
  const response = Float64Array.from({ length: 2000 }, (_, n) =>
    n === 0 ? gain : gain * (pole ** n + pole ** (n - 1)),
  );
  const tone = { lengthSeconds: 1.5, gapSeconds: 0.5, leadInSeconds: 0.3 };
  const { within3Db, within10Db } = capture({ response, latencyFrames: 15 }, tone).channels[0];
  expectWithin(within3Db.toHz / 2000, 1, 0.03);
  const warped = (Math.atan(3 * warp) * rateHz) / Math.PI;
  expectWithin(within10Db.toHz / warped, 1, 0.03);
  expect(within3Db.endsWithTone).toEqual({ low: true, high: false });
});

/** Closed form: x + g x(t - tau) is least at (2k + 1) / (2 tau), with -g at k / tau; table of tau = 0.5, 1, 2 and 5 ms. */
test.each([
  [0.5, [1000, 3000, 5000, 7000, 9000]],
  [1, [500, 1500, 2500, 3500, 4500]],
  [2, [250, 750, 1250, 1750, 2250]],
  [5, [100, 300, 500, 700, 900]],
])("notches of a leak %d ms late", (latencyMs, notches) => {
  for (const [n, hz] of leakNotchesHz(latencyMs, false, rateHz).entries())
    expectWithin(hz, notches[n], 1e-9, "Hz");
  expect(leakNotchesHz(latencyMs, true, rateHz)[0]).toBe(1000 / latencyMs);
  const powerAt = (hz: number) => 1 + 0.25 + Math.cos(2 * Math.PI * hz * latencyMs * 1e-3);
  for (const hz of notches)
    for (const aside of [0.98, 1.02]) expect(powerAt(hz)).toBeLessThan(powerAt(aside * hz));
  expect(leakNotchesHz(0, false, rateHz)).toEqual([]);
});
