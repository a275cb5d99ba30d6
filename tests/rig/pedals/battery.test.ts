import { describe, expect, test } from "vitest";
import { pedalModels } from "../../../src/rig/pedals/models.js";
import { firstOf } from "../../longForm.js";
import { noise, sine } from "../../signals.js";
import {
  endsOf,
  jackCombinations,
  kernelOf,
  modelOf,
  type PedalRun,
  randomValues,
  type Sound,
  valuesOf,
  wetOf,
} from "./runPedal.js";

/** What every pedal must do, whatever it is: laws, no source needed. */
describe.each(Object.keys(pedalModels))("%s", (model) => {
  for (const [inputs, outputs] of jackCombinations) {
    const channels = (make: (seed: number) => Float32Array): Sound =>
      Array.from({ length: inputs }, (_, c) => make(c + 1));

    describe(`${inputs} in, ${outputs} out`, () => {
      test("block sizes agree to the bit", () => {
        for (const seed of firstOf([1, 2, 3], 1)) {
          const run: PedalRun = {
            model,
            outputs,
            settings: randomValues(model, seed),
            input: channels((n) => noise({ seed: n, frames: 3000 })),
          };
          const whole = wetOf({ ...run, blockFrames: 3000 });
          for (const blockFrames of [1, 7, 64, 511]) {
            const parts = wetOf({ ...run, blockFrames });
            const differ = whole.map((channel, c) => channel.findIndex((x, n) => !Object.is(x, parts[c][n])));
            expect(differ, `seed ${seed}, blocks of ${blockFrames}`).toEqual(whole.map(() => -1));
          }
        }
      });

      test("silence stays silent", () => {
        for (const settings of [{}, ...endsOf(model)]) {
          const wet = wetOf({ model, outputs, settings, input: channels(() => new Float32Array(4800)) });
          expect(Math.max(...wet.map(peak)), JSON.stringify(settings)).toBe(0);
        }
      });

      test("every setting at both ends stays finite and bounded", () => {
        for (const settings of endsOf(model)) {
          const input = channels((seed) => noise({ seed, frames: 12_000, rms: 0.2 }));
          for (const rateHz of [8000, 48_000]) {
            const wet = wetOf({ model, outputs, settings, input, rateHz });
            expect(Math.max(...wet.map(peak)), `${JSON.stringify(settings)} at ${rateHz} Hz`).toBeLessThan(
              100,
            );
          }
        }
      });

      test("a tone leaves no steady offset", () => {
        const tone = sine({ frequencyHz: 220, rateHz: 16_000, lengthSeconds: 4, peakDbfs: -6 });
        const wet = wetOf({ model, outputs, input: channels(() => tone), rateHz: 16_000 });
        for (const channel of wet) expect(Math.abs(offset(channel.subarray(32_000)))).toBeLessThan(1e-4);
      });

      test("the tail dies", () => {
        const rateHz = 16_000;
        for (const settings of [{}, ...strongestFeedback(model)]) {
          const input = channels((seed) => {
            const sound = new Float32Array(20 * rateHz);
            sound.set(noise({ seed, frames: rateHz }));
            return sound;
          });
          const wet = wetOf({ model, outputs, settings, input, rateHz });
          for (const channel of wet) {
            const end = peak(channel.subarray(-rateHz));
            expect(end, JSON.stringify(settings)).toBeLessThanOrEqual(1e-3 * peak(channel));
            const denormal = channel.some((x) => x !== 0 && Math.abs(x) < 1.2e-38);
            expect(denormal, "a tail of denormal numbers").toBe(false);
          }
        }
      });
    });
  }

  test("blocks take no memory", () => {
    const frames = 512;
    const input = [new Float32Array(frames)];
    const outputs = [new Float32Array(frames), new Float32Array(frames)];
    const kernel = kernelOf({ model, input, outputs: 2 });
    const work = (blocks: number): number => {
      const before = process.memoryUsage().arrayBuffers;
      for (let n = 0; n < blocks; n++) kernel.process(input, outputs, frames);
      return process.memoryUsage().arrayBuffers - before;
    };
    work(1000);
    const grown = Array.from({ length: 9 }, () => work(500)).sort((a, b) => a - b);
    // Of samples: numbers that the engine boxes by itself do not count. The median: a collector at work in one stretch does
    // not either. One buffer made for each block would be 1 MB.
    expect(grown[4]).toBeLessThan(100_000);
  });

  test("what it says of itself holds", () => {
    const { settings, additive, directGain, silenceMs, latencyFrames, blend } = modelOf(model);
    const values = valuesOf({ model });
    expect("mix" in settings).toBe(additive);
    expect(directGain(values) === 0).toBe(additive);
    for (const setting of Object.values(settings)) {
      if (!("min" in setting)) continue;
      expect(setting.default).toBeGreaterThanOrEqual(setting.min);
      expect(setting.default).toBeLessThanOrEqual(setting.max);
      if (setting.log) expect(setting.min).toBeGreaterThan(0);
    }
    expect(silenceMs(values)).toBeGreaterThanOrEqual(0);
    expect(Number.isInteger(latencyFrames?.(values, 48_000) ?? 0)).toBe(true);
    for (const outputs of [1, 2] as const) {
      const { dry, wet } = blend(values, outputs);
      expect([dry.length, wet.length]).toEqual([outputs, outputs]);
    }
  });
});

/** NaN counts as infinite. */
function peak(channel: Float32Array): number {
  let most = 0;
  for (const x of channel) most = Number.isFinite(x) ? Math.max(most, Math.abs(x)) : Number.POSITIVE_INFINITY;
  return most;
}

/** Mean under a Hann window, so that a tone cut off in mid-swing does not count. */
function offset(channel: Float32Array): number {
  let sum = 0;
  for (let n = 0; n < channel.length; n++) {
    sum += channel[n] * (1 - Math.cos((2 * Math.PI * (n + 0.5)) / channel.length));
  }
  return sum / channel.length;
}

/** Feedback at both ends, with the longest way round that still dies within the render. */
function strongestFeedback(model: string) {
  const table = modelOf(model).settings;
  const { feedback, delayMs } = table;
  if (!feedback || !("min" in feedback)) return [];
  const short = delayMs && "min" in delayMs ? { delayMs: Math.min(60, delayMs.max) } : {};
  return [feedback.min, feedback.max].map((value) => ({ ...short, feedback: value }));
}
