import fc from "fast-check";
import { expect, test } from "vitest";
import { TruePeakMeter } from "../../../src/sound/measure/truePeak.js";
import { byBoth, firstDifference, roughNoise } from "./twins.js";

const rates = fc.constantFrom(8000, 44_100, 48_000, 96_000, 192_000);
const blocks = fc.integer({ min: 1, max: 3000 });

test("true peaks are the same to the bit", () => {
  fc.assert(
    fc.property(rates, fc.nat(), blocks, (rateHz, seed, block) => {
      const sound = Float32Array.from(roughNoise(8000, seed));
      const { plain, simd } = byBoth(() => {
        const meter = new TruePeakMeter(rateHz);
        const seen: number[] = [];
        for (let at = 0; at < sound.length; at += block) {
          const part = sound.subarray(at, at + block).map((x, n) => x * (1 + (at + n) / 8000));
          meter.push(part, part.length);
          if (at > 0 && at + block < sound.length) continue;
          const { samplePeak, truePeak } = meter.result();
          seen.push(samplePeak, truePeak);
        }
        return [Float64Array.from(seen)];
      });
      expect(firstDifference(plain, simd)).toBeNull();
    }),
    { numRuns: 40 },
  );
});
