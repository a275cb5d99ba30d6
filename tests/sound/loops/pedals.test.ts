import fc from "fast-check";
import { expect, test } from "vitest";
import { modelOf } from "../../../src/rig/pedals/models.js";
import { FirLine } from "../../../src/sound/dsp/firLine.js";
import { FractionalDelay } from "../../../src/sound/dsp/fractionalDelay.js";
import { defaultsOf, type NumberSetting, type SettingTable } from "../../../src/sound/dsp/kernel.js";
import { byBoth, firstDifference, roughNoise } from "./twins.js";

const rates = fc.constantFrom(8000, 44_100, 48_000, 69_313, 192_000);

/** Settings anywhere between their bounds, of those that are numbers, and switches either way. */
const settingsOf = (table: SettingTable) =>
  fc.record(
    Object.fromEntries(
      Object.entries(table).flatMap(([key, setting]): [string, fc.Arbitrary<number | boolean>][] => {
        if ("min" in setting) return [[key, setting.whole ? fc.integer(setting) : doubleOf(setting)]];
        return typeof setting.default === "boolean" ? [[key, fc.boolean()]] : [];
      }),
    ),
  );
const doubleOf = ({ min, max }: NumberSetting) => fc.double({ min, max, noNaN: true });

test.each(["spring", "plate", "hall", "chorus", "flanger", "vibrato", "delay", "overdrive"])(
  "a %s is the same to the bit, whatever its settings, rate and blocks",
  (model) => {
    const jacks = fc.constantFrom<readonly [1 | 2, 1 | 2]>([1, 1], [1, 2], [2, 2]);
    const { settings, kernel: make } = modelOf(model);
    fc.assert(
      fc.property(
        settingsOf(settings),
        jacks,
        rates,
        fc.nat(),
        fc.integer({ min: 1, max: 1500 }),
        (set, [inputs, outputs], rateHz, seed, block) => {
          const frames = 6000;
          const fed = Array.from({ length: inputs }, (_, n) =>
            Float32Array.from(roughNoise(frames, seed + n)),
          );
          const { plain, simd } = byBoth(() => {
            const use = { rateHz, inputs, outputs, interpolation: "cubic" as const, clips: new Map() };
            const kernel = make({ ...defaultsOf(settings), ...set }, use);
            const heard = Array.from({ length: outputs }, () => new Float32Array(frames));
            for (let at = 0; at < frames; at += block) {
              const part = (channel: Float32Array) => channel.subarray(at, Math.min(frames, at + block));
              kernel.process(fed.map(part), heard.map(part), Math.min(block, frames - at));
            }
            return heard;
          });
          expect(firstDifference(plain, simd)).toBeNull();
        },
      ),
      { numRuns: 40 },
    );
  },
);

test("finite responses and latencies are the same to the bit", () => {
  const cases = fc.tuple(
    fc.integer({ min: 1, max: 90 }),
    fc.nat(70),
    fc.nat(),
    fc.integer({ min: 1, max: 1500 }),
  );
  fc.assert(
    fc.property(cases, ([count, delayFrames, seed, block]) => {
      const input = Float32Array.from(roughNoise(3000, seed));
      const { plain, simd } = byBoth(() => {
        const line = new FirLine(roughNoise(count, seed + 1), delayFrames);
        const late = new FractionalDelay(delayFrames + 1 / (count + 1));
        const outputs = [new Float32Array(3000), new Float32Array(3000)];
        for (let at = 0; at < 3000; at += block) {
          const [fed, ofLine, ofLate] = [input, ...outputs].map((channel) =>
            channel.subarray(at, at + block),
          );
          line.process(fed, ofLine, fed.length);
          late.process([fed], [ofLate], fed.length);
        }
        return outputs;
      });
      expect(firstDifference(plain, simd)).toBeNull();
    }),
    { numRuns: 60 },
  );
});
