import { describe, expect, test } from "vitest";
import { Lowering, loweringBytes, lowRate, Raising, raisingBytes } from "../../../src/sound/dsp/lowRate.js";
import { openRoom } from "../../../src/sound/loops/room.js";
import { sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

const chunkFrames = 128;

/** There and back must change nothing but time and what lies above half the low rate. */
describe.each([8000, 11_025, 44_100, 48_000, 96_000, 192_000])("from %i Hz", (rateHz) => {
  const wantedHz = Math.min(8600, 0.9 * rateHz);
  const low = lowRate(wantedHz, rateHz);

  test("the low rate is near the one wanted", () => {
    expectWithin(low.rateHz / wantedHz, 1, 0.015);
  });

  /** A Kaiser window of 50 dB ripples by as much in its passband, 0.0032, and there are four filters. */
  test.each([0.02, 0.2, 0.36])("a tone at %d of the low rate comes back, late by the lag", (share) => {
    const frequencyHz = share * low.rateHz;
    const output = thereAndBack(sine({ frequencyHz, rateHz, lengthSeconds: 0.2 }));
    let worst = 0;
    for (let n = Math.round(0.05 * rateHz); n < output.length; n++) {
      const expected = Math.sin(2 * Math.PI * frequencyHz * (n / rateHz - low.lagSeconds));
      worst = Math.max(worst, Math.abs(output[n] - expected));
    }
    expect(worst).toBeLessThan(0.016);
  });

  /** 50 dB each way. A tone at s leaves nothing, neither itself nor an alias. */
  test.each([0.51, 0.6, 0.9, 1.3])("a tone at %d of the low rate is gone", (share) => {
    const frequencyHz = share * low.rateHz;
    if (frequencyHz > 0.48 * rateHz) return;
    const output = thereAndBack(sine({ frequencyHz, rateHz, lengthSeconds: 0.2 }));
    const peak = output
      .subarray(Math.round(0.05 * rateHz))
      .reduce((most, y) => Math.max(most, Math.abs(y)), 0);
    expect(20 * Math.log10(peak)).toBeLessThan(-47);
  });

  function thereAndBack(input: Float32Array): Float64Array {
    const room = openRoom(loweringBytes(low, chunkFrames) + raisingBytes(low, chunkFrames));
    const lowering = new Lowering(low, chunkFrames, room);
    const raising = new Raising(low, chunkFrames, room);
    const output = new Float64Array(input.length);
    for (let from = 0; from < input.length; from += chunkFrames) {
      const frames = Math.min(chunkFrames, input.length - from);
      lowering.process(input, from, frames);
      raising.samples.set(lowering.samples);
      raising.process(frames, lowering.betweenCount);
      output.set(raising.sound.subarray(0, frames), from);
    }
    return output;
  }
});
