import { describe, expect, test } from "vitest";
import { DelayLine } from "../../../src/sound/dsp/delayLine.js";
import { FractionalDelay, lagrangeTaps } from "../../../src/sound/dsp/fractionalDelay.js";
import { cubicBetween } from "../../../src/sound/loops/cubic.js";
import { gainDbAt } from "../../dtft.js";
import { runKernel } from "../../rig/pedals/runPedal.js";
import { impulse, noise } from "../../signals.js";
import { expectWithin } from "../../within.js";

test("a line gives back what went in, for as long as it promised", () => {
  for (const longest of [0, 1, 5, 100, 1020, 1021, 1023]) {
    const { ring, mask } = new DelayLine(longest);
    for (let n = 0; n < 5000; n++) {
      ring[n & mask] = n;
      // A cubic looks at two frames more.
      if (n >= longest + 2) expect(ring[(n - longest - 2) & mask]).toBe(n - longest - 2);
    }
  }
});

/** A cubic through four points of a cubic is that cubic: Lagrange's theorem. */
test("cubic reads are exact on a cubic, and are Lagrange's", () => {
  const f = (x: number) => 0.3 * x ** 3 - x ** 2 + 0.5 * x + 2;
  for (const place of [0, 0.1, 0.5, 0.93, 1]) {
    expectWithin(cubicBetween(f(-1), f(0), f(1), f(2), place), f(place), 1e-12);
    const taps = lagrangeTaps(3, 1 + place);
    const byTaps = [f(-1), f(0), f(1), f(2)].reduce((sum, y, k) => sum + y * taps[k], 0);
    expectWithin(byTaps, f(place), 1e-12);
  }
});

describe("fixed delay", () => {
  test("whole frames are exact copies", () => {
    const input = [noise({ seed: 1, frames: 2000 }), noise({ seed: 2, frames: 2000 })];
    for (const delayFrames of [0, 1, 57, 480]) {
      const out = runKernel(new FractionalDelay(delayFrames, 2), input, 2, 64);
      input.forEach((channel, c) => {
        expect(out[c].subarray(delayFrames)).toEqual(channel.subarray(0, 2000 - delayFrames));
      });
    }
  });

  /** The delay of a band-limited pulse is its delay: phase -2 pi f D (closed form), gain 1. */
  test.each([0.3, 1.4, 2.5, 9.99, 57.6, 1000.25])("%f frames late, flat where it can be", (delayFrames) => {
    const response = runKernel(new FractionalDelay(delayFrames, 1), [impulse(2048)], 1, 511)[0];
    const moment = response.reduce((sum, x, n) => sum + n * x, 0) / response.reduce((sum, x) => sum + x, 0);
    expectWithin(moment, delayFrames, 1e-4, "frames at 0 Hz");
    if (delayFrames < 16) return;
    expectWithin(gainDbAt(response, 0.25, 1), 0, 0.001, "dB");
    expectWithin(gainDbAt(response, 0.3, 1), 0, 0.02, "dB");
    expectWithin(gainDbAt(response, 0.38, 1), 0, 0.4, "dB at 18 kHz of 48");
  });

  test("block sizes agree to the bit", () => {
    const input = [noise({ seed: 3, frames: 1500 })];
    for (const delayFrames of [0.5, 20.2, 33]) {
      const whole = runKernel(new FractionalDelay(delayFrames), input, 1, 1500);
      for (const block of [1, 7, 64, 511]) {
        expect(runKernel(new FractionalDelay(delayFrames), input, 1, block)).toEqual(whole);
      }
    }
  });

  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])("refuses %f", (delayFrames) => {
    expect(() => new FractionalDelay(delayFrames)).toThrow(RangeError);
  });
});
