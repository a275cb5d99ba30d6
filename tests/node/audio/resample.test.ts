import { expect, test } from "vitest";
import { resample, resampleResponse } from "../../../src/node/audio/resample.js";
import { impulse, sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

const rates = [
  [44_100, 48_000],
  [48_000, 44_100],
  [96_000, 44_100],
  [48_000, 192_000],
  [48_000, 69_313],
] as const;

/** Closed form: a sine sampled at the other rate. The ends, where the sine begins and stops, are left out. */
test.each(rates)(
  "a 997 Hz sine from %i to %i Hz is the sine at that rate, within -135 dB",
  async (rateHz, toRateHz) => {
    const tone = (rate: number) => sine({ frequencyHz: 997, rateHz: rate, lengthSeconds: 1, peakDbfs: -6 });
    const { channels, rateHz: newRateHz } = await resample({ rateHz, channels: [tone(rateHz)] }, toRateHz);
    expect(newRateHz).toBe(toRateHz);
    const expected = tone(toRateHz);
    expect(channels[0].length).toBe(expected.length);
    let [error, energy] = [0, 0];
    for (let n = Math.round(toRateHz * 0.1); n < toRateHz * 0.9; n++) {
      error += (channels[0][n] - expected[n]) ** 2;
      energy += expected[n] ** 2;
    }
    expect(10 * Math.log10(error / energy)).toBeLessThan(-135);
  },
);

test("what the lower rate cannot hold is gone: 23 kHz from 96 to 44.1 kHz", async () => {
  const tone = sine({ frequencyHz: 23_000, rateHz: 96_000, lengthSeconds: 0.5 });
  const { channels } = await resample({ rateHz: 96_000, channels: [tone] }, 44_100);
  const middle = channels[0].subarray(4_000, 18_000);
  expect(10 * Math.log10(middle.reduce((sum, x) => sum + x * x, 0) / middle.length)).toBeLessThan(-130);
});

test("no delay and no lost end: an impulse near either end stays where it is", async () => {
  const late = new Float32Array(4_800);
  late[4_790] = 1;
  const { channels } = await resample({ rateHz: 48_000, channels: [impulse(4_800), late] }, 96_000);
  const peakAt = (samples: Float32Array) => samples.indexOf(Math.max(...samples));
  expect(channels.map((samples) => samples.length)).toEqual([9_600, 9_600]);
  expect(channels.map(peakAt)).toEqual([0, 9_580]);
});

/** Closed form: the gain at DC is the sum of the response, at any rate. */
test("a response keeps its gain", async () => {
  const decay = Float32Array.from({ length: 4_800 }, (_, n) => (n < 200 ? 0 : Math.exp(-(n - 200) / 300)));
  const sum = (samples: Float32Array) => samples.reduce((total, x) => total + x, 0);
  for (const toRateHz of [44_100, 96_000]) {
    const { channels } = await resampleResponse({ rateHz: 48_000, channels: [decay] }, toRateHz);
    expectWithin(sum(channels[0]) / sum(decay), 1, 1e-4, "gain at DC");
  }
});

test("the same rate changes nothing", async () => {
  const clip = { rateHz: 48_000, channels: [impulse(10)] };
  expect((await resample(clip, 48_000)).channels[0]).toEqual(clip.channels[0]);
});
